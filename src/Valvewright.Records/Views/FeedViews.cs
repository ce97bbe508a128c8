namespace Valvewright.Records.Views;

/// <summary>A secret address at which the advice of the night is read is asked for.</summary>
/// <param name="Name">What it is for.</param>
public sealed record FeedRequest(string Name);

/// <summary>A secret address at which the advice of the night is read.</summary>
/// <param name="Id">Its id, by which it is taken away.</param>
/// <param name="Name">What it is for.</param>
/// <param name="By">Who made it.</param>
/// <param name="Made">When.</param>
public sealed record FeedView(Guid Id, string Name, string By, Instant Made);

/// <summary>A secret address that was just made. It is told this once.</summary>
/// <param name="Feed">What it is for.</param>
/// <param name="Calendar">The address of the calendar.</param>
/// <param name="Json">The address of the same as JSON.</param>
public sealed record FeedMade(FeedView Feed, Uri Calendar, Uri Json);
