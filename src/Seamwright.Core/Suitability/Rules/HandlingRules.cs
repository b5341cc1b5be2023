using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>A seam that is masked over or rubbed before paint takes a two-part sealer or a strip: tape lifts a one-part with paint on it.</summary>
internal static class HandlingRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("handling.masked-or-rubbed", Sources.Trade, MaskedOrRubbed)];

    private static Finding MaskedOrRubbed(JointCase subject)
    {
        bool handled = (subject.Joint.Masked || subject.Joint.Rubbed) && subject.Joint.Stage != Stage.AfterPaintHeat;
        if (!handled || !subject.IsSeamMaterial)
            return Finding.NotConcerned;

        bool onePart = subject.Sheet.IsMoistureCure || subject.Sheet.Chemistry == Chemistry.OnePartSolventRubber;
        return onePart
            ? Finding.Refused(subject.Joint.Masked ? "one-part-masked" : "one-part-rubbed", subject.Sheet.Id, subject.Joint.Id)
            : Finding.Fine("stands-handling", subject.Sheet.Id, subject.Joint.Id);
    }
}
