namespace Valvewright.App.Parts.Versions;

/// <summary>What a person decided about two versions of a record.</summary>
/// <param name="KeepsTheirs">The other person's version stands; there is nothing to send.</param>
/// <param name="Body">The record as it shall be: the text of a survey or a plan, JSON of other records.</param>
/// <param name="Version">The version that it rests on, as <c>If-Match</c> wants it.</param>
public sealed record Decision(bool KeepsTheirs, string Body, string Version);
