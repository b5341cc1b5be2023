using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>In what a planning problem differs from the repair as it stands: what is asked, forced, left out or set aside.</summary>
internal sealed record Variation
{
    public static Variation Recommended { get; } = new();

    /// <summary>What is optimised.</summary>
    public PlanAim Aim { get; init; } = PlanAim.Recommended;

    /// <summary>Only what is spent counts: bay days and lateness cost nothing.</summary>
    public bool SpendingOnly { get; init; }

    /// <summary>Joints that must take a certain material.</summary>
    public ImmutableDictionary<PlaceId, MaterialId> Forced { get; init; } = ImmutableDictionary<PlaceId, MaterialId>.Empty;

    /// <summary>No delivery today: what is ordered comes on the supplier's next day.</summary>
    public bool WithoutDeliveryToday { get; init; }

    /// <summary>The only paint slot looked at, by its place in the repair's list; null = all of them.</summary>
    public int? Slot { get; init; }

    /// <summary>Lamps may speed the cure of seals, not only of bonds, and warm cold panels.</summary>
    public bool LampCuresSeals { get; init; }

    /// <summary>No lamp.</summary>
    public bool WithoutLamp { get; init; }

    /// <summary>Facts set aside while a conflict is looked for, by <see cref="Fact.Id"/>.</summary>
    public ImmutableHashSet<string> SetAside { get; init; } = [];

    /// <summary>The ready-for-paint moment is a variable of the model, not only a consequence of the slot.</summary>
    public bool TimesReady { get; init; }

    /// <summary>Latest ready minute that is of interest; null = the whole horizon.</summary>
    public int? ReadyAtMost { get; init; }

    /// <summary>What the other vehicles of the shop take; null = the vehicle has the shop to itself. Only with a <see cref="Slot"/>.</summary>
    public Others? Others { get; init; }

    /// <summary>Everything is ready for paint at least so long before the slot; needs <see cref="TimesReady"/>. [min, ≥ 0]</summary>
    public int Reserve { get; init; }

    /// <summary>Work and promises announced, whose moves cost; null = nothing is announced.</summary>
    public Announcement? Announced { get; init; }

    public bool IsSetAside(string fact) => SetAside.Count > 0 && SetAside.Contains(fact);
}

/// <summary>Names of facts that can take part in a conflict.</summary>
internal static class FactIds
{
    public const string Slots = "slots";
    public const string Hours = "hours";
    public const string Supplier = "supplier";

    public static string Rule(PlaceId place, string ruleId) => $"{place}/{ruleId}";

    public static string Window(PlaceId place) => $"{place}/window";

    public static string Limits(MaterialId material) => $"{material}/limits";

    public static string Stock(string what) => $"{what}/stock";

    public static string Skill(string what) => $"{what}/people";

    /// <summary>A lamp is asked for at a place.</summary>
    public static string Lamp(PlaceId place) => $"{place}/lamp";

    public static string CureTime(PlaceId place) => $"{place}/cure-time";

    /// <summary>Nothing at all can be done at a place: setting it aside leaves the place out.</summary>
    public static string NoWay(PlaceId place) => $"{place}/way";
}
