using System.Collections.Immutable;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>No plan is possible: which facts clash, and what would be right for each.</summary>
internal static class ConflictList
{
    public static void Write(Page page, RepairInput input, PlanAnswer answer)
    {
        Headline.Title(page, input);
        page.Gap();
        page.Line(new Run(page.Say("print.no-plan"), Tone.Alert));
        Write(page, answer.Conflicts);
    }

    /// <summary>The conflicts alone.</summary>
    public static void Write(Page page, ImmutableArray<Conflict> conflicts)
    {
        page.Paragraph(page.Say("print.conflicts", conflicts.Length));
        int number = 0;
        foreach (var conflict in conflicts)
        {
            number++;
            page.Title(page.Say("print.conflict", number));
            foreach (var fact in conflict.Facts)
            {
                string place = fact.Place is { } id ? $"{id.Value}: " : "";
                page.Bullet(place + page.Format.Sentence(fact.Reason));
            }
        }
    }
}
