using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>What is known of a photo; its bytes lie in the data folder under their hash.</summary>
internal sealed class PhotoRow
{
    public required Guid Id { get; init; }

    public required string Repair { get; init; }

    /// <summary>Joint, cavity or bare area it shows; null = the car.</summary>
    public string? Place { get; init; }

    /// <summary>What it is for, for example the look before work.</summary>
    public required string Kind { get; init; }

    public required Instant Taken { get; init; }

    public required Instant Recorded { get; init; }

    public required string TakenBy { get; init; }

    /// <summary>SHA-256 of the bytes, hexadecimal.</summary>
    public required string Hash { get; init; }

    public required long Bytes { get; init; }

    public required string Type { get; init; }
}
