using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>A paint slot that a repair has taken. The moment is the key: a slot cannot be taken twice.</summary>
internal sealed class SlotRow
{
    public required Instant At { get; init; }

    public required string Repair { get; init; }

    public required Instant Taken { get; init; }

    public required string TakenBy { get; init; }
}
