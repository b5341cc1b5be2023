using Seamwright.Units;

namespace Seamwright.Costs;

/// <summary>What a plan costs, by kind. Every part is unrounded; print <see cref="Money.Rounded"/>.</summary>
public sealed record CostBreakdown
{
    /// <summary>Labour of everyone on the car in the planned steps.</summary>
    public Money Labour { get; init; }

    /// <summary>Material used: beads, losses, nozzle hold-up and purge, primer, wax, foam.</summary>
    public Money Material { get; init; }

    /// <summary>Material paid for and thrown away.</summary>
    public Money Wasted { get; init; }

    /// <summary>
    /// Material used from packs that would have expired unused soon after: taken off again, zero or negative. Using it costs the shop nothing.
    /// </summary>
    public Money SavedFromExpiry { get; init; }

    /// <summary>Mixing nozzles.</summary>
    public Money Nozzles { get; init; }

    /// <summary>Deliveries.</summary>
    public Money Delivery { get; init; }

    /// <summary>Lamp hours.</summary>
    public Money Lamp { get; init; }

    /// <summary>Booth hours outside the paint slot.</summary>
    public Money Booth { get; init; }

    /// <summary>Working days by which the paint slot moved.</summary>
    public Money BayTime { get; init; }

    /// <summary>Lateness after the promise.</summary>
    public Money Lateness { get; init; }

    /// <summary>What is spent: everything but time.</summary>
    public Money Spent => Labour + Material + Wasted + SavedFromExpiry + Nozzles + Delivery + Lamp + Booth;

    /// <summary>Everything.</summary>
    public Money Total => Spent + BayTime + Lateness;
}
