using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>What a joint is there for decides what it may be filled with. Sealer is neither foam nor adhesive.</summary>
internal static class FunctionRules
{
    private const string Source = Sources.Makers + "; " + Sources.Trade;

    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("function.structural", Source, Structural),
        new("function.crash-relevant", Source, CrashRelevant),
        new("function.acoustic-foam", Source, AcousticFoam),
        new("function.anti-flutter", Source, AntiFlutter),
        new("function.seal", Source, Seal),
    ];

    private static Finding Structural(JointCase subject) =>
        subject.Joint.Function != JointFunction.Structural ? Finding.NotConcerned
        : IsSealing(subject) ? Finding.Refused("sealer-is-not-structural", subject.Joint.Id, subject.Sheet.Id)
        : Finding.Refused("structural-by-procedure-only", subject.Joint.Id, subject.Sheet.Id);

    private static Finding CrashRelevant(JointCase subject) =>
        subject.Joint.Function != JointFunction.CrashRelevant ? Finding.NotConcerned
        : IsSealing(subject) ? Finding.Refused("sealer-is-not-for-crash", subject.Joint.Id, subject.Sheet.Id)
        : Finding.Refused("crash-by-procedure-only", subject.Joint.Id, subject.Sheet.Id);

    private static Finding AcousticFoam(JointCase subject)
    {
        if (subject.Joint.Function != JointFunction.AcousticFoam)
            return Finding.NotConcerned;

        return subject.Sheet.Use is MaterialUse.FlexibleFoam or MaterialUse.RigidFoam
            ? Finding.Advice("foam-after-hot-work", subject.Sheet.Id, subject.Joint.Id)
            : Finding.Refused("sealer-is-not-foam", subject.Joint.Id, subject.Sheet.Id);
    }

    private static Finding AntiFlutter(JointCase subject)
    {
        if (subject.Joint.Function != JointFunction.AntiFlutter)
            return Finding.NotConcerned;

        return subject.Sheet.Use == MaterialUse.AntiFlutter
            ? Finding.Fine("anti-flutter-in-place", subject.Sheet.Id, subject.Joint.Id)
            : Finding.Refused("only-anti-flutter-here", subject.Joint.Id, subject.Sheet.Id);
    }

    private static Finding Seal(JointCase subject)
    {
        if (subject.Joint.Function != JointFunction.Seal)
            return Finding.NotConcerned;

        return subject.Sheet.Use switch
        {
            MaterialUse.SeamSealer or MaterialUse.SeamTape => Finding.Fine("seam-material", subject.Sheet.Id, subject.Joint.Id),
            MaterialUse.AntiFlutter => Finding.Refused("anti-flutter-is-not-sealer", subject.Sheet.Id, subject.Joint.Id),
            MaterialUse.PanelAdhesive => Finding.Refused("adhesive-is-not-sealer", subject.Sheet.Id, subject.Joint.Id),
            MaterialUse.FlexibleFoam or MaterialUse.RigidFoam => Finding.Refused("foam-is-not-sealer", subject.Sheet.Id, subject.Joint.Id),
            _ => Finding.Refused("coating-is-not-sealer", subject.Sheet.Id, subject.Joint.Id),
        };
    }

    private static bool IsSealing(JointCase subject) => subject.Sheet.Use is MaterialUse.SeamSealer or MaterialUse.SeamTape;
}
