using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Choices;

/// <summary>
/// For every joint and every material: refused because …, or what choosing it would change. All are first answered by putting the joint
/// into its new session with everything else left where it is; the runner-up, and all of a joint that is asked about, by planning again.
/// </summary>
internal sealed class OtherMaterials(
    PlanningCase planning, PlanSearch search, PlanReader reader, Found best, Plan recommended, PlanOptions options)
{
    private readonly Retiming _retiming = new(planning, best, recommended);

    public ImmutableArray<JointPlan> Answer()
    {
        var plans = recommended.Joints;
        var facts = planning.Joints.Concat(planning.Cavities).ToDictionary(facts => facts.Joint.Id);
        var answered = new JointPlan[plans.Length];
        for (int i = 0; i < plans.Length; i++)
            answered[i] = AnswerFor(plans[i], facts[plans[i].Joint]);
        return [.. answered];
    }

    private JointPlan AnswerFor(JointPlan plan, JointFacts facts)
    {
        var answers = planning.Input.Sheets.Select(sheet => AnswerFor(plan, facts, sheet)).ToList();
        var runnerUp = answers
            .Where(answer => answer.Material != plan.Material && answer.Consequence is { Slot: not null })
            .OrderBy(answer => answer.Consequence!.CostShift.Amount)
            .ThenBy(answer => answer.Consequence!.Ready)
            .FirstOrDefault();
        for (int i = 0; i < answers.Count; i++)
        {
            bool asked = answers[i].Consequence is not null && answers[i].Material != plan.Material
                && (answers[i] == runnerUp || options.Explain == plan.Joint);
            if (asked)
                answers[i] = PlannedAgain(plan.Joint, answers[i].Material) is { } again ? answers[i] with { Consequence = again } : WithoutPlan(answers[i]);
        }
        bool stands = answers.Any(answer => answer.Material == runnerUp?.Material && answer.Consequence is not null);
        return plan with { Answers = [.. answers], RunnerUp = stands ? runnerUp?.Material : null };
    }

    /// <summary>The quick answer found a gap, but the whole repair cannot be planned that way.</summary>
    private static MaterialAnswer WithoutPlan(MaterialAnswer answer) => answer with
    {
        Overall = VerdictKind.Refused,
        Verdicts = answer.Verdicts.Add(new Verdict(VerdictKind.Refused, "plan.none", Reason.Of("no-plan-with", answer.Material), "planned again")),
        Consequence = null,
    };

    private MaterialAnswer AnswerFor(JointPlan plan, JointFacts facts, DataSheet sheet)
    {
        bool chosen = plan.Material == sheet.Id;
        var options = facts.Options.Where(option => option.Sheet.Id == sheet.Id).ToList();
        var option = chosen
            ? options.Find(candidate => candidate.Preparation == plan.Preparation) ?? options[0]
            : options.OrderBy(candidate => candidate.Overall).ThenBy(candidate => candidate.Preparation).First();
        var verdicts = option.Verdicts.AddRange(TimedVerdicts.For(planning, option, chosen));
        var overall = Verdicts.Overall(verdicts);
        Consequence? consequence = null;
        if (chosen)
            consequence = new Consequence(recommended.ReadyForPaint, Duration.Zero, new Units.Money(0, planning.Shop.Currency), recommended.Slot, Resolved: true);
        else if (overall <= VerdictKind.Advice && plan.Material is not null && !plan.Applied.Equals(null))
            consequence = _retiming.With(plan, facts, sheet.Id);
        return new MaterialAnswer(sheet.Id, overall, verdicts, option.Preparation, consequence);
    }

    private Consequence? PlannedAgain(PlaceId joint, MaterialId material)
    {
        var variation = Variation.Recommended with { Forced = Variation.Recommended.Forced.Add(joint, material) };
        if (search.Cheapest(variation, best) is not { } found)
            return null;
        var cost = reader.CostOf(found);
        var ready = planning.Time.At(ReadyMoment.Of(found));
        return new Consequence(ready, ready - recommended.ReadyForPaint, cost.Total - recommended.Cost.Total, reader.SlotOf(found), Resolved: true);
    }
}
