using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Reads the milestones of a sheet and gives each its law.</summary>
/// <param name="use">What the sheet is for.</param>
/// <param name="chemistry">Its chemistry.</param>
/// <param name="reference">Air for which its times are stated.</param>
/// <param name="energy">Energy stated for the whole sheet, or null.</param>
/// <param name="source">Source of the sheet.</param>
/// <param name="coldest">Coldest panel that the sheet allows, or null.</param>
/// <param name="warmest">Warmest panel that the sheet allows, by lamp or booth if that is warmer, or null.</param>
internal sealed class MilestoneReader(
    MaterialUse use, Chemistry chemistry, AirState reference, MolarEnergy? energy, string source, Temperature? coldest, Temperature? warmest)
{
    private static readonly ImmutableArray<(string Key, MilestoneKind Kind)> Kinds =
    [
        ("skin", MilestoneKind.Skin), ("work", MilestoneKind.WorkEnd), ("tack_free", MilestoneKind.TackFree),
        ("touch_dry", MilestoneKind.TouchDry), ("next_layer", MilestoneKind.NextLayer), ("paint", MilestoneKind.Paint),
        ("handling", MilestoneKind.Handling), ("full", MilestoneKind.Full),
    ];

    /// <summary>Milestones in the order of their kinds.</summary>
    public ImmutableArray<Milestone> Read(MapReader times)
    {
        var milestones = ImmutableArray.CreateBuilder<Milestone>();
        foreach (var (key, kind) in Kinds)
        {
            if (times.Find(key) is { } field && One(field, kind) is { } milestone)
                milestones.Add(milestone);
        }

        return milestones.ToImmutable();
    }

    /// <summary>The law of a moisture-cure bead's depth.</summary>
    public CureLaw DepthLaw() => new CureLaw.Moisture(energy ?? CureDefaults.MoisturePermeability.Energy!.Value, reference);

    private Milestone? One(Field field, MilestoneKind kind)
    {
        if (field.Node is ListNode)
            return FromPoints(field, kind, Points(field), null, null);
        if (field.Node is not MapNode)
            return QuantityText.Read(field, Measures.Duration) is { } seconds ? AtReference(field, kind, seconds, null, null) : null;
        if (MapReader.Open(field, MaterialsFormat.Milestone) is not { } map)
            return null;

        var (stated, law) = (map.Energy("energy"), map.Word<LawWord>("law"));
        int forms = (map.Has("time") ? 1 : 0) + (map.Has("points") ? 1 : 0) + (map.Has("steps") ? 1 : 0);
        if (forms != 1)
        {
            field.Problem("material.one-of-time-points-steps");
            return null;
        }

        if (map.Find("points") is { } points)
            return FromPoints(points, kind, Points(points), stated, law);
        if (map.Find("steps") is { } steps)
            return FromSteps(steps, kind, map);
        return map.Duration("time") is { } time ? AtReference(field, kind, time.TotalSeconds, stated, law) : null;
    }

    private ImmutableArray<SheetPoint>? Points(Field field)
    {
        var points = ImmutableArray.CreateBuilder<SheetPoint>();
        foreach (var item in field.Items())
        {
            if (MapReader.Open(item, MaterialsFormat.Point) is not { } point || point.Duration("time") is not { } time)
                return null;
            points.Add(new(new(point.Temperature("at") ?? reference.Temperature, point.Humidity("humidity") ?? reference.Humidity), time));
        }

        if (points.Count == 0)
            field.Problem("value.empty-list");
        return points.Count == 0 ? null : points.ToImmutable();
    }

    private Milestone? AtReference(Field field, MilestoneKind kind, double seconds, MolarEnergy? stated, LawWord? law) =>
        FromPoints(field, kind, [new(reference, Composite.Duration(seconds))], stated, law);

    private Milestone? FromPoints(Field field, MilestoneKind kind, ImmutableArray<SheetPoint>? read, MolarEnergy? stated, LawWord? word)
    {
        if (read is not { } points)
            return null;
        var law = word ?? UsualLaw(kind);

        // Ready at once (a strip): there is no work to count, whatever the air.
        if (law == LawWord.Clock || points.All(point => point.Time == Duration.Zero))
        {
            double hours = points.Average(point => point.Time.TotalHours);
            return new(kind, new CureLaw.Clock(), ReferenceTime.FromHours(hours), Evidence(points));
        }

        var given = stated ?? energy;
        var result = given is { } value ? WithEnergy(points, law, value) : Fit(points, law, DefaultEnergy(law));
        if (result is CureFitResult.Fitted fitted)
            return fitted.As(kind);
        Tell(field, ((CureFitResult.Refused)result).Problem);
        return null;
    }

    private CureFitResult Fit(ImmutableArray<SheetPoint> points, LawWord law, MolarEnergy? fallback) => law switch
    {
        LawWord.Moisture => CureFit.Moisture(points, reference, fallback ?? MolarEnergy.Zero, source),
        LawWord.Drying or LawWord.WaterborneDrying =>
            CureFit.Drying(points, reference, law == LawWord.WaterborneDrying, fallback, source),
        _ => CureFit.TwoPart(points, reference.Temperature, fallback, source),
    };

    // The sheet states the energy: each point alone gives an amount of work, the geometric mean of them is the least-squares one.
    // A law that the sheet states holds wherever the sheet allows the material: only beyond its limits does an answer extrapolate.
    private CureFitResult WithEnergy(ImmutableArray<SheetPoint> points, LawWord law, MolarEnergy value)
    {
        var fits = new List<CureFitResult.Fitted>();
        foreach (var point in points)
        {
            var fit = Fit([point], law, value);
            if (fit is not CureFitResult.Fitted fitted)
                return fit;
            fits.Add(fitted);
        }

        double mean = Math.Exp(fits.Average(fit => Math.Log(fit.Needed.Hours)));
        var stated = Evidence(points);
        var evidence = stated with
        {
            Coldest = Temperature.Min(stated.Coldest, coldest ?? stated.Coldest),
            Warmest = Temperature.Max(stated.Warmest, warmest ?? stated.Warmest),
            WorstResidual = points.Length == 1 ? 0 : fits.Max(fit => Math.Abs(mean / fit.Needed.Hours - 1)),
        };
        return fits[0] with { Needed = points.Length == 1 ? fits[0].Needed : ReferenceTime.FromHours(mean), Evidence = evidence };
    }

    private Milestone? FromSteps(Field field, MilestoneKind kind, MapReader map)
    {
        var steps = map.Maps("steps")
            .Select(step => (From: step.Temperature("from"), Time: step.Duration("time")))
            .Where(step => step is { From: not null, Time: not null })
            .Select(step => (From: step.From!.Value, Time: step.Time!.Value))
            .ToImmutableArray();
        if (steps.Length == 0)
            return null;
        for (int i = 1; i < steps.Length; i++)
        {
            if (steps[i].From <= steps[i - 1].From || steps[i].Time > steps[i - 1].Time)
            {
                field.Problem("material.steps-not-ascending");
                return null;
            }
        }

        var law = new CureLaw.Stepped([.. steps.Select(step => new RateStep(step.From, steps[0].Time / step.Time))]);
        var points = steps.Select(step => new SheetPoint(new(step.From, reference.Humidity), step.Time)).ToImmutableArray();
        return new(kind, law, ReferenceTime.FromHours(steps[0].Time.TotalHours), Evidence(points));
    }

    private MilestoneEvidence Evidence(ImmutableArray<SheetPoint> points) => new(
        points, false, points.Min(point => point.Climate.Temperature), points.Max(point => point.Climate.Temperature), 0, source);

    private LawWord UsualLaw(MilestoneKind kind)
    {
        bool twoPart = chemistry is Chemistry.TwoPartEpoxy or Chemistry.TwoPartPolyurethane or Chemistry.TwoPartAcrylic;
        bool film = use is MaterialUse.Primer or MaterialUse.EtchPrimer or MaterialUse.WeldThroughPrimer or MaterialUse.StoneChip;
        if (twoPart && (!film || kind == MilestoneKind.WorkEnd))
            return LawWord.TwoPart;
        return chemistry switch
        {
            Chemistry.OnePartPolyurethane or Chemistry.OnePartSilaneModified => LawWord.Moisture,
            Chemistry.Waterborne => LawWord.WaterborneDrying,
            Chemistry.Strip => LawWord.Clock,
            _ => LawWord.Drying,
        };
    }

    private MolarEnergy? DefaultEnergy(LawWord law) => law switch
    {
        LawWord.Moisture => CureDefaults.MoisturePermeability.Energy,
        LawWord.TwoPart when chemistry == Chemistry.TwoPartAcrylic => CureDefaults.AcrylicReaction.Energy,
        LawWord.TwoPart when chemistry == Chemistry.TwoPartPolyurethane => CureDefaults.PolyurethaneReaction.Energy,
        LawWord.TwoPart => CureDefaults.EpoxyReaction.Energy,
        _ => CureDefaults.FilmDrying.Energy,
    };

    private static void Tell(Field field, CureFitProblem problem)
    {
        switch (problem.Kind)
        {
            case CureFitProblemKind.EnergyNegative:
                field.Problem("material.warmer-is-slower");
                break;
            case CureFitProblemKind.EnergyTooHigh:
                field.Problem("material.energy-too-high", Words.Number(Math.Round(problem.FittedEnergy?.KilojoulesPerMole ?? 0)));
                break;
            case CureFitProblemKind.NoEnergyKnown:
                field.Problem("material.energy-needed");
                break;
            default:
                field.Problem("material.points-unusable");
                break;
        }
    }
}
