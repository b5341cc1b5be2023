using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Materials;

/// <summary>One material's data sheet, as far as it decides where it goes, when it is ready and what is used. Immutable.</summary>
public sealed record DataSheet
{
    /// <summary>Short name.</summary>
    public required MaterialId Id { get; init; }

    /// <summary>Generic name in words, for example <c>one-part polyurethane, gun grade</c>.</summary>
    public required string Name { get; init; }

    /// <summary>What it is for.</summary>
    public required MaterialUse Use { get; init; }

    /// <summary>Chemistry.</summary>
    public required Chemistry Chemistry { get; init; }

    /// <summary>How it reaches the car.</summary>
    public required ApplicationMethod Method { get; init; }

    /// <summary>Sheet name and revision, or <c>invented</c>.</summary>
    public required string Source { get; init; }

    /// <summary>One maker's system this belongs to; null where not stated. Mixing systems needs a sign-off.</summary>
    public string? System { get; init; }

    /// <summary>Limits at application.</summary>
    public ApplicationLimits Limits { get; init; } = new();

    /// <summary>Milestones, at most one a kind.</summary>
    public ImmutableArray<Milestone> Milestones { get; init; } = [];

    /// <summary>Cure through depth, for moisture-cure materials.</summary>
    public DepthCure? DepthCure { get; init; }

    /// <summary>True where paint must wait until the bead is cured through its depth.</summary>
    public bool PaintNeedsCuredThrough { get; init; }

    /// <summary>Longest wait until the next layer (paint over sealer, sealer over primer) before abrading again; null = no limit stated.</summary>
    public MaximumWindow? NextLayerWithin { get; init; }

    /// <summary>Surfaces the sheet allows (true) or refuses (false); a surface not listed is not stated.</summary>
    public ImmutableDictionary<SurfaceKind, bool> Surfaces { get; init; } = ImmutableDictionary<SurfaceKind, bool>.Empty;

    /// <summary>Looks that can be made with it.</summary>
    public ImmutableHashSet<Profile> Looks { get; init; } = [];

    /// <summary>Greatest bead height that stays put on a vertical surface; null = not stated.</summary>
    public Length? SagVertical { get; init; }

    /// <summary>Greatest bead height that stays put overhead; null = not stated.</summary>
    public Length? SagOverhead { get; init; }

    /// <summary>True for self-levelling grades: only level, up to <see cref="MaximumTilt"/>.</summary>
    public bool LevelOnly { get; init; }

    /// <summary>Greatest tilt of a self-levelling grade; null = none stated.</summary>
    public Angle? MaximumTilt { get; init; }

    /// <summary>Smallest radius a strip can follow; null = not a strip or not stated.</summary>
    public Length? MinimumRadius { get; init; }

    /// <summary>Heat by lamp or booth that the sheet allows; null = none.</summary>
    public HeatAllowance? Heat { get; init; }

    /// <summary>Greatest temperature the placed material stands later, for example in the paint bake; null = not stated.</summary>
    public Temperature? StandsHeatUpTo { get; init; }

    /// <summary>How much is used.</summary>
    public Coverage? Coverage { get; init; }

    /// <summary>Film build of a primer or coating; null = not stated.</summary>
    public FilmFacts? Film { get; init; }

    /// <summary>The pack it comes in.</summary>
    public required Packaging Pack { get; init; }

    /// <summary>Dangers to be shown at its steps.</summary>
    public ImmutableArray<Hazard> Hazards { get; init; } = [];

    /// <summary>Trainings a person needs to apply it, by name, for example <c>diisocyanates</c>.</summary>
    public ImmutableArray<string> Trainings { get; init; } = [];

    /// <summary>True where two components react.</summary>
    public bool IsTwoPart => Chemistry is Chemistry.TwoPartEpoxy or Chemistry.TwoPartPolyurethane or Chemistry.TwoPartAcrylic;

    /// <summary>True where it cures by moisture from the air.</summary>
    public bool IsMoistureCure => Chemistry is Chemistry.OnePartPolyurethane or Chemistry.OnePartSilaneModified;

    /// <summary>A milestone by kind, or null where the sheet states none.</summary>
    public Milestone? Milestone(MilestoneKind kind)
    {
        foreach (var milestone in Milestones)
        {
            if (milestone.Kind == kind)
                return milestone;
        }
        return null;
    }
}

/// <summary>Limits at application. Null = not stated.</summary>
public sealed record ApplicationLimits
{
    /// <summary>Coldest panel.</summary>
    public Temperature? PanelFrom { get; init; }

    /// <summary>Warmest panel.</summary>
    public Temperature? PanelTo { get; init; }

    /// <summary>Least relative humidity.</summary>
    public RelativeHumidity? HumidityFrom { get; init; }

    /// <summary>Greatest relative humidity.</summary>
    public RelativeHumidity? HumidityTo { get; init; }

    /// <summary>Least water in the air below which a moisture cure must not be relied on.</summary>
    public HumidityRatio? LeastWater { get; init; }

    /// <summary>Margin of the panel above the dew point until touch-dry; 3 K is customary (ISO 8502-4 as applied in practice).</summary>
    public TemperatureDifference DewPointMargin { get; init; } = TemperatureDifference.FromKelvins(3);
}

/// <summary>Heat that a sheet allows after application.</summary>
/// <param name="PanelUpTo">Greatest panel temperature.</param>
/// <param name="LeastHold">Shortest time at temperature; zero = not stated.</param>
public sealed record HeatAllowance(Temperature PanelUpTo, Duration LeastHold);

/// <summary>How much material a length, area or place takes.</summary>
public abstract record Coverage
{
    private Coverage()
    {
    }

    /// <summary>A volume per metre of joint or bond line.</summary>
    /// <param name="Amount">Volume for one metre.</param>
    public sealed record PerMetre(Volume Amount) : Coverage;

    /// <summary>A volume per square metre, losses included.</summary>
    /// <param name="Amount">Volume for one square metre.</param>
    public sealed record PerSquareMetre(Volume Amount) : Coverage;

    /// <summary>A volume per cavity or place.</summary>
    /// <param name="Amount">Volume for one.</param>
    public sealed record PerPlace(Volume Amount) : Coverage;

    /// <summary>Foam: the cavity's volume divided by the expansion.</summary>
    /// <param name="Factor">Expanded volume per mixed volume. [&gt; 1]</param>
    public sealed record Expansion(double Factor) : Coverage;
}

/// <summary>Film build of a primer or coating.</summary>
/// <param name="DryThickness">Dry film thickness of all coats together.</param>
/// <param name="VolumeSolids">Solids by volume, ready to spray. [0…1]</param>
/// <param name="TransferEfficiency">Share of the sprayed solids that stays on the part. [0…1]</param>
public sealed record FilmFacts(Length DryThickness, double VolumeSolids, double TransferEfficiency);

/// <summary>The pack a material comes in.</summary>
public sealed record Packaging
{
    /// <summary>Usable content of paste, paint, wax or foam, both components together; zero for a strip.</summary>
    public Volume Content { get; init; }

    /// <summary>Length of a strip on its roll; zero for everything else.</summary>
    public Length StripLength { get; init; }

    /// <summary>Mix ratio by volume, base : hardener, for example 4 and 1; null for one-part materials.</summary>
    public MixRatio? Ratio { get; init; }

    /// <summary>Price of a full pack.</summary>
    public required Money Price { get; init; }

    /// <summary>Mixing nozzles that come with a new pack; they fit this pack's ratio only.</summary>
    public int NozzlesIncluded { get; init; }

    /// <summary>Days usable after opening, the opening day not counted; null = until the date on the pack.</summary>
    public int? OpenedLifeDays { get; init; }

    /// <summary>Usable time after activation of a two-part aerosol or mixed pot, by the clock; null = not activated or by pot life.</summary>
    public Duration? ActivatedLife { get; init; }

    /// <summary>True where the rest cannot be kept: the job that opens it pays all of it.</summary>
    public bool SingleUse { get; init; }
}

/// <summary>Mix ratio by volume.</summary>
/// <param name="Base">Parts of base. [&gt; 0]</param>
/// <param name="Hardener">Parts of hardener. [&gt; 0]</param>
/// <param name="BaseDensity">Density of the base, for weighing; null = not stated.</param>
/// <param name="HardenerDensity">Density of the hardener, for weighing; null = not stated.</param>
public sealed record MixRatio(double Base, double Hardener, Density? BaseDensity = null, Density? HardenerDensity = null);
