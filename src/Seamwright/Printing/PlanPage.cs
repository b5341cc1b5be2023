using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>Prints the answer for one repair: what is ready when, who does what, what to take, what else was possible.</summary>
public static class PlanPage
{
    /// <summary>Writes the whole answer.</summary>
    public static void Write(Page page, RepairInput input, PlanAnswer answer)
    {
        if (answer.Recommended is not { } plan)
        {
            ConflictList.Write(page, input, answer);
            return;
        }

        Headline.Write(page, input, plan);
        JointTable.Write(page, input, plan);
        Timeline.Write(page, input, plan);
        StepList.Write(page, input, plan);
        PickList.Write(page, plan);
        OrderList.Write(page, plan);
        MixList.Write(page, plan);
        OtherPlans.Write(page, answer);
        Remarks.Write(page, plan);
        page.Gap();
        page.Line(new Run(page.Say("print.plan-id", plan.Id, plan.Seed, plan.EngineVersion), Tone.Faint));
    }
}
