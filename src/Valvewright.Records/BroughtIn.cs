using Valvewright.Engine.Values;

namespace Valvewright.Records;

/// <summary>What bringing an archive in came to.</summary>
/// <param name="Site">The site.</param>
/// <param name="Made">Records that were not there before.</param>
/// <param name="Same">Records that were there and say the same.</param>
/// <param name="Different">Records that were there and say something else; they were left as they are.</param>
public sealed record BroughtIn(Guid Site, int Made, int Same, ListOf<string> Different);
