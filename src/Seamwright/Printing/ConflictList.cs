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
        page.Paragraph(page.Say("print.conflicts", answer.Conflicts.Length));
        int number = 0;
        foreach (var conflict in answer.Conflicts)
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
