using System.Collections.Immutable;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>Things to know, and the safety lines.</summary>
internal static class Remarks
{
    public static void Write(Page page, Plan plan)
    {
        List(page, "print.warnings", plan.Warnings, Tone.Plain);
        List(page, "print.cautions", plan.Cautions, Tone.Plain);
    }

    private static void List(Page page, string title, ImmutableArray<Reason> reasons, Tone tone)
    {
        if (reasons.IsEmpty)
            return;
        page.Title(page.Say(title));
        foreach (var reason in reasons)
            page.Bullet(page.Format.Sentence(reason), tone);
    }
}
