namespace Valvewright.Records;

/// <summary>What bringing an archive in came to.</summary>
/// <param name="Site">The site.</param>
/// <param name="Made">Records that were not there before.</param>
/// <param name="Same">Records that were there and say the same.</param>
/// <param name="Different">Records that were there and say something else; they were left as they are.</param>
/// <param name="Entries">Entries of the history that came with the records that were made, each marked as brought in.</param>
public sealed record BroughtIn(Guid Site, int Made, int Same, ListOf<string> Different, int Entries);
