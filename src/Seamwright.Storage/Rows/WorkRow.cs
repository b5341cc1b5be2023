using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>An entry of the work log. Written once; the databases refuse to change or delete it.</summary>
internal sealed class WorkRow
{
    /// <summary>Place in the log, from 1 without a gap.</summary>
    public required long Sequence { get; init; }

    /// <summary>Made by whoever wrote the entry, so that a repeated delivery is known as one.</summary>
    public required Guid Id { get; init; }

    /// <summary>When it happened, by the writer's clock.</summary>
    public required Instant At { get; init; }

    /// <summary>The writer's distance from UTC. [s]</summary>
    public required int OffsetSeconds { get; init; }

    /// <summary>When it arrived, by our clock.</summary>
    public required Instant Recorded { get; init; }

    public required string Who { get; init; }

    public required string Kind { get; init; }

    public string? Repair { get; init; }

    /// <summary>What happened, as JSON.</summary>
    public required string Facts { get; init; }

    /// <summary>Hash of the entry before; zeros for the first.</summary>
    public required string Previous { get; init; }

    /// <summary>SHA-256 over the previous hash and everything in this entry.</summary>
    public required string Hash { get; init; }

    public WorkRow WithHash(string hash) => new()
    {
        Sequence = Sequence,
        Id = Id,
        At = At,
        OffsetSeconds = OffsetSeconds,
        Recorded = Recorded,
        Who = Who,
        Kind = Kind,
        Repair = Repair,
        Facts = Facts,
        Previous = Previous,
        Hash = hash,
    };
}
