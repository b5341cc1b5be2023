using System.Collections.Immutable;
using NodaTime;

namespace Seamwright.Storage.Programs;

/// <summary>A key with which another program comes in.</summary>
/// <param name="Id">Never changes.</param>
/// <param name="Hash">SHA-256 of the key, hexadecimal.</param>
/// <param name="Beginning">Its first letters, by which people recognise it.</param>
/// <param name="Name">What it is for.</param>
/// <param name="Scopes">What it may do.</param>
/// <param name="Account">Who made it.</param>
/// <param name="Made">When it was made.</param>
/// <param name="Ends">When it ends by itself.</param>
/// <param name="Used">When it was used last; null = never.</param>
/// <param name="TakenBack">When it was taken back; null = it was not.</param>
public sealed record ProgramKey(
    Guid Id, string Hash, string Beginning, string Name, ImmutableArray<string> Scopes, Guid Account, Instant Made, Instant Ends, Instant? Used, Instant? TakenBack)
{
    /// <summary>Whether it opens a door at a moment.</summary>
    public bool IsGood(Instant at) => TakenBack is null && at < Ends;
}
