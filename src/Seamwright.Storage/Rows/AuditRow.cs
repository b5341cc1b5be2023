using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>Who did what to the store itself: sign-ins, rights, backups. Written once, as the work log.</summary>
internal sealed class AuditRow
{
    public required Guid Id { get; init; }

    public required Instant At { get; init; }

    public required string Who { get; init; }

    public required string What { get; init; }

    /// <summary>What it was done to; empty = the store as a whole.</summary>
    public required string Subject { get; init; }

    /// <summary>From where: an address, or the console.</summary>
    public required string Origin { get; init; }

    public required string Facts { get; init; }
}
