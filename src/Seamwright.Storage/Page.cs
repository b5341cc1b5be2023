using System.Collections.Immutable;

namespace Seamwright.Storage;

/// <summary>A part of a list.</summary>
/// <param name="Items">Entries of this part, in the list's order; at most <paramref name="Size"/>.</param>
/// <param name="Total">Entries of the whole list.</param>
/// <param name="Number">Which part, from 1.</param>
/// <param name="Size">Entries on a full part.</param>
/// <typeparam name="T">An entry.</typeparam>
public sealed record Page<T>(ImmutableArray<T> Items, int Total, int Number, int Size)
{
    /// <summary>Most entries of one part: a wrong number must not fetch years of data.</summary>
    public const int MostItems = 500;

    /// <summary>How many parts there are, at least 1.</summary>
    public int Parts => Math.Max(1, (Total + Size - 1) / Size);
}
