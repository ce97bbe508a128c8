using Valvewright.Engine.Words;

namespace Valvewright.Store.Files;

/// <summary>A store can't be opened, copied, moved or put back.</summary>
/// <param name="what">Why, in a sentence.</param>
/// <param name="inner">Its cause.</param>
public sealed class StoreException(Sentence what, Exception? inner = null) : Exception(what?.Text, inner)
{
    /// <summary>Why.</summary>
    public Sentence What { get; } = what!;
}
