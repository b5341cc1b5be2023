using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>A key with which another program comes in. Here lies only its hash, so that the database opens no door.</summary>
internal sealed class ProgramKeyRow
{
    public required Guid Id { get; init; }

    /// <summary>SHA-256 of the key, hexadecimal.</summary>
    public required string Hash { get; init; }

    /// <summary>The key's first letters, by which people recognise it.</summary>
    public required string Beginning { get; init; }

    public required string Name { get; init; }

    /// <summary>What it may do, words with a space between them.</summary>
    public required string Scopes { get; init; }

    /// <summary>Who made it; the key may never do more than they.</summary>
    public required Guid Account { get; init; }

    public required Instant Made { get; init; }

    public required Instant Ends { get; init; }

    /// <summary>Null = never used.</summary>
    public Instant? Used { get; set; }

    /// <summary>Null = not taken back.</summary>
    public Instant? TakenBack { get; set; }
}
