using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>Every material on one joint: each verdict in words with its numbers and source, then what choosing it would change.</summary>
public static class Explanation
{
    /// <summary>Writes the explanation of a joint.</summary>
    /// <param name="page">The page.</param>
    /// <param name="input">What was planned.</param>
    /// <param name="decision">The joint's decision with its answers.</param>
    public static void Write(Page page, RepairInput input, JointPlan decision)
    {
        var joint = input.Repair.JointOrCavity(decision.Joint)!;
        page.Title(page.Say("print.explain", joint.Id, joint.Name, joint.Look, joint.Position));
        foreach (var why in decision.Why)
            page.Bullet(page.Format.Sentence(why));

        foreach (var answer in decision.Answers.OrderBy(answer => answer.Material != decision.Material).ThenBy(answer => answer.Overall))
        {
            page.Gap();
            Write(page, input, decision, answer);
        }
    }

    private static void Write(Page page, RepairInput input, JointPlan decision, MaterialAnswer answer)
    {
        bool chosen = answer.Material == decision.Material;
        string name = input.Sheets.FirstOrDefault(sheet => sheet.Id == answer.Material)?.Name ?? "";
        string word = chosen ? page.Say("print.chosen") : page.Format.Word(answer.Overall);
        string preparation = answer.Preparation == Preparation.AsIs ? "" : $" · {page.Format.Word(answer.Preparation)}";
        page.Line(
            new Run($" {answer.Material.Value}  ", Tone.Strong), new Run($"{name}  "),
            new Run(word + preparation, chosen ? Tone.Answer : answer.Overall == VerdictKind.Refused ? Tone.Alert : Tone.Strong));

        // A verdict that only says that the rule has nothing to look at tells the reader nothing.
        foreach (var verdict in answer.Verdicts.Where(verdict => verdict.Reason.Key != "not-concerned").OrderByDescending(verdict => verdict.Kind))
        {
            string lead = $"   {page.Format.Word(verdict.Kind),-15} ";
            page.Paragraph($"{page.Format.Sentence(verdict.Reason)} [{verdict.Source}]", lead, leadTone: verdict.Kind == VerdictKind.Refused ? Tone.Alert : Tone.Faint);
        }
        page.Paragraph(Consequence(page, answer, chosen), $"   {page.Marks.Then.Trim()} ", Tone.Strong);
    }

    private static string Consequence(Page page, MaterialAnswer answer, bool chosen)
    {
        if (answer.Consequence is not { } consequence)
            return answer.Overall == VerdictKind.Refused ? page.Say("print.not-possible") : page.Say("print.not-timed");
        if (chosen)
            return page.Say("print.chosen-ready", consequence.Ready);
        string text = page.Say("print.consequence", page.Format.Shift(consequence.ReadyShift), consequence.Ready, page.Format.Text(consequence.CostShift, "signed"));
        text += consequence.Slot is { } slot ? page.Say("print.consequence-slot", slot) : page.Say("print.consequence-no-slot");
        return text + page.Say(consequence.Resolved ? "print.resolved" : "print.kept");
    }
}
