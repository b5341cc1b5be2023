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

    private readonly List<(JointPlan Plan, MaterialAnswer[] Answers, int RunnerUp)> _all = [];

    /// <summary>Gives the quick answers, then what must be planned again; each question may be asked from any thread.</summary>
    public IEnumerable<Action> Questions()
    {
        var facts = planning.Joints.Concat(planning.Cavities).ToDictionary(facts => facts.Joint.Id);
        var again = new List<Action>();
        foreach (var plan in recommended.Joints)
        {
            var answers = planning.Input.Sheets.Select(sheet => AnswerFor(plan, facts[plan.Joint], sheet)).ToArray();
            int runnerUp = RunnerUp(plan, answers);
            for (int i = 0; i < answers.Length; i++)
            {
                int at = i;
                if (answers[i].Consequence is not null && answers[i].Material != plan.Material && (i == runnerUp || options.Explain == plan.Joint))
                    again.Add(() => answers[at] = PlannedAgain(plan.Joint, answers[at].Material) is { } consequence ? answers[at] with { Consequence = consequence } : WithoutPlan(answers[at]));
            }
            _all.Add((plan, answers, runnerUp));
        }
        foreach (var question in again)
            yield return question;
    }

    /// <summary>The answers, once every question has been asked.</summary>
    public ImmutableArray<JointPlan> Answer() =>
        [.. _all.Select(joint => joint.Plan with
        {
            Answers = [.. joint.Answers],
            RunnerUp = joint.RunnerUp >= 0 && joint.Answers[joint.RunnerUp].Consequence is not null ? joint.Answers[joint.RunnerUp].Material : null,
        })];

    /// <summary>Place of the material that costs least instead, ties by the ready moment; −1 for none.</summary>
    private static int RunnerUp(JointPlan plan, MaterialAnswer[] answers) =>
        Enumerable.Range(0, answers.Length)
            .Where(i => answers[i].Material != plan.Material && answers[i].Consequence is { Slot: not null })
            .OrderBy(i => answers[i].Consequence!.CostShift.Amount)
            .ThenBy(i => answers[i].Consequence!.Ready)
            .FirstOrDefault(-1);

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
