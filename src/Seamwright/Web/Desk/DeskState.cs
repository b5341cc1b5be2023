using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files;
using Seamwright.Planning.Uncertainty;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Program.Web.Desk;

/// <summary>The shop as it stands on every page: what was last read and planned. Immutable.</summary>
public sealed record DeskState
{
    /// <summary>Moment that was planned from.</summary>
    public required Instant AsOf { get; init; }

    /// <summary>True while a newer plan is being made.</summary>
    public bool IsPlanning { get; init; }

    /// <summary>The shop; null where there is none yet or its document cannot be read.</summary>
    public Shop? Shop { get; init; }

    /// <summary>Air of the shop; null where there is no repair to read it with.</summary>
    public Climate? Climate { get; init; }

    /// <summary>Open repairs, as planned together.</summary>
    public ImmutableArray<DeskVehicle> Vehicles { get; init; } = [];

    /// <summary>What cannot be read in what all repairs share.</summary>
    public ImmutableArray<FileProblem> Problems { get; init; } = [];

    /// <summary>An open repair by its name; null = none.</summary>
    /// <param name="id">Name of the repair.</param>
    public DeskVehicle? Vehicle(string id) => Vehicles.FirstOrDefault(vehicle => vehicle.Id == id);

    /// <summary>Open repairs, the first ready for paint first.</summary>
    public IEnumerable<DeskVehicle> InOrder => Vehicles.OrderBy(vehicle => vehicle.Plan?.ReadyForPaint ?? Instant.MinValue).ThenBy(vehicle => vehicle.Id, StringComparer.Ordinal);

    /// <summary>Nothing known yet.</summary>
    public static DeskState Unknown { get; } = new() { AsOf = Instant.MinValue, IsPlanning = true };
}

/// <summary>An open repair.</summary>
/// <param name="Id">Name of the repair.</param>
/// <param name="Title">Name for people.</param>
/// <param name="Version">Version of the document that was planned.</param>
/// <param name="Input">What it was planned from; null where the document cannot be read.</param>
/// <param name="Problems">Why it cannot be read.</param>
/// <param name="Plan">Its plan beside the others; null where there is none (yet).</param>
/// <param name="Chance">How likely the plan is kept; null where it is not known (yet).</param>
/// <param name="Conflicts">Why there is no plan.</param>
public sealed record DeskVehicle(
    string Id,
    string Title,
    long Version,
    RepairInput? Input,
    ImmutableArray<FileProblem> Problems,
    Plan? Plan = null,
    Chance? Chance = null,
    ImmutableArray<Conflict> Conflicts = default)
{
    private const double Unsure = 0.8;

    /// <summary>How it stands, in one word: <c>open</c> (no plan), <c>late</c>, <c>moved</c>, <c>tight</c> or <c>ready</c>.</summary>
    public string Manner => this switch
    {
        { Plan: null } => "open",
        { IsLate: true } => "late",
        { IsMoved: true } => "moved",
        { Chance.BySlot.Value: < Unsure } => "tight",
        _ => "ready",
    };

    /// <summary>Handed over after the promise.</summary>
    public bool IsLate => Plan is { } plan && Input is { } input && plan.ReadyForDelivery > input.Repair.Promise;

    /// <summary>Painted in a later slot than the one wanted.</summary>
    public bool IsMoved => Plan is { } plan && Input is { Repair.PaintSlots: { IsEmpty: false } slots } && plan.Slot > slots[0];
}
