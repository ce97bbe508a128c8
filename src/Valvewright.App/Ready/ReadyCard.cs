namespace Valvewright.App.Ready;

/// <summary>A card that lies ready on the device: <c>js/ready.js</c> shows it before the engine has started.</summary>
/// <param name="Version">Version of the site that it was made of.</param>
/// <param name="Maker">Which build of the page made it.</param>
/// <param name="Plan">The plan.</param>
/// <param name="Controller">The controller's name.</param>
/// <param name="Day">The date that it is for.</param>
/// <param name="First">The plan's first date: no card is for an earlier one unless it is asked for.</param>
/// <param name="Until">The last date on which all but what is marked as of the day still holds.</param>
/// <param name="Zone">Time zone of the site, by its IANA name.</param>
/// <param name="Ticks">Where the device keeps what has been set of it.</param>
/// <param name="Title">Title of the window.</param>
/// <param name="Html">The frame and the card, names in it as text.</param>
public sealed record ReadyCard(
    string Version, string Maker, Guid Plan, string Controller, LocalDate Day, LocalDate First, LocalDate Until, string Zone, string Ticks,
        string Title, string Html);
