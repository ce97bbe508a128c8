using Valvewright.Engine.Words;

namespace Valvewright.Engine.Season;

/// <summary>Wishes for visits that cannot be met: they are the person's to change.</summary>
/// <param name="why">Which of them, and why.</param>
public sealed class UnmetWishException(Sentence why) : ArgumentException(why?.Text)
{
    /// <summary>Which of them, and why.</summary>
    public Sentence Why { get; } = why!;
}
