using System.Collections;
using System.Runtime.CompilerServices;
using System.Text.Json.Serialization;

namespace Valvewright.Engine.Values;

/// <summary>
/// An immutable list that compares by its items, so that records which hold lists compare as plain values.
/// </summary>
/// <remarks>
/// Two surveys, plans or proofs are equal when all they say is equal; "two runs give the same plan" is then one comparison.
/// Create one with a collection expression: <c>ListOf&lt;int&gt; days = [1, 2, 3];</c>. Written to JSON as an array.
/// </remarks>
[CollectionBuilder(typeof(ListOf), nameof(ListOf.Create))]
[JsonConverter(typeof(ListOfJsonConverterFactory))]
public sealed class ListOf<T> : IReadOnlyList<T>, IEquatable<ListOf<T>>
{
    private readonly T[] items;

    internal ListOf(T[] items) => this.items = items;

    /// <inheritdoc/>
    public int Count => items.Length;

    /// <inheritdoc/>
    public T this[int index] => items[index];

    /// <summary>The items as a span, for loops that must not allocate.</summary>
    public ReadOnlySpan<T> AsSpan() => items;

    /// <summary>This list with one more item at its end.</summary>
    public ListOf<T> Add(T item) => new([.. items, item]);

    /// <inheritdoc/>
    public bool Equals(ListOf<T>? other) =>
        other is not null && (ReferenceEquals(this, other) || items.AsSpan().SequenceEqual(other.items, EqualityComparer<T>.Default));

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as ListOf<T>);

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        HashCode hash = default;
        foreach (T item in items)
        {
            hash.Add(item);
        }

        return hash.ToHashCode();
    }

    /// <inheritdoc/>
    public IEnumerator<T> GetEnumerator() => ((IEnumerable<T>)items).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => items.GetEnumerator();

    /// <inheritdoc/>
    public override string ToString() => $"[{string.Join(", ", items)}]";
}

/// <summary>Makes <see cref="ListOf{T}"/> values.</summary>
public static class ListOf
{
    /// <summary>A list of the given items, copied.</summary>
    public static ListOf<T> Create<T>(ReadOnlySpan<T> items) => new(items.ToArray());

    /// <summary>A list of the given items, copied.</summary>
    public static ListOf<T> ToListOf<T>(this IEnumerable<T> items) => new([.. items]);
}
