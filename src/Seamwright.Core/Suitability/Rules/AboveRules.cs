using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>The layer above: whether and when the sheet lets it on, and the heat that comes with it.</summary>
internal static class AboveRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("above.paint", Sources.Trade, Paint),
        new("above.stone-chip", Sources.Makers, StoneChip),
        new("above.wax", Sources.Makers, Wax),
        new("above.bake-heat", Sources.CommonPractice, BakeHeat),
        new("above.unpainted", Sources.Makers, Unpainted),
    ];

    private static Finding Paint(JointCase subject)
    {
        if (subject.Joint.Above != LayerAbove.Paint || subject.Joint.Stage == Stage.AfterPaintHeat)
            return Finding.NotConcerned;
        if (subject.Sheet.Milestone(MilestoneKind.Paint) is not { } paint)
            return Finding.Refused("paint-time-not-stated", subject.Sheet.Id);

        var from = Duration.FromHours(paint.Needed.Hours);
        return (subject.Sheet.NextLayerWithin is { } window
            ? Finding.Fine("paint-window", subject.Sheet.Id, from, window.Clock)
            : Finding.Fine("paint-from", subject.Sheet.Id, from)).From(subject.Sheet.Source);
    }

    private static Finding StoneChip(JointCase subject)
    {
        if (subject.Joint.Above != LayerAbove.StoneChip)
            return Finding.NotConcerned;

        var over = subject.Sheet.Milestone(MilestoneKind.NextLayer) ?? subject.Sheet.Milestone(MilestoneKind.Paint);
        return over is null
            ? Finding.Refused("stone-chip-time-not-stated", subject.Sheet.Id)
            : Finding.Fine("stone-chip-from", subject.Sheet.Id, Duration.FromHours(over.Needed.Hours)).From(subject.Sheet.Source);
    }

    private static Finding Wax(JointCase subject) =>
        subject.Joint.Above == LayerAbove.Wax ? Finding.Advice("wax-after-last-bake", subject.Joint.Id, subject.Bake) : Finding.NotConcerned;

    private static Finding BakeHeat(JointCase subject)
    {
        if (subject.Joint.Stage == Stage.AfterPaintHeat || subject.Sheet.StandsHeatUpTo is not { } limit)
            return Finding.NotConcerned;

        return limit >= subject.Bake
            ? Finding.Fine("stands-the-bake", subject.Sheet.Id, limit, subject.Bake).From(subject.Sheet.Source)
            : Finding.Refused("does-not-stand-the-bake", subject.Sheet.Id, limit, subject.Bake).From(subject.Sheet.Source);
    }

    private static Finding Unpainted(JointCase subject)
    {
        bool staysInTheLight = subject.Joint.Look.Visible && subject.Joint.Above is (LayerAbove.Nothing or LayerAbove.Wax);
        return staysInTheLight && subject.Sheet.Chemistry == Chemistry.OnePartPolyurethane
            ? Finding.Advice("polyurethane-unpainted", subject.Sheet.Id, subject.Joint.Id)
            : Finding.NotConcerned;
    }
}
