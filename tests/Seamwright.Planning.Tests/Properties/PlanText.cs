using Seamwright.Planning.Checking;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Planning.Tests.Properties;

/// <summary>Plans as text: to compare two of them, and to read what the checker says.</summary>
internal static class PlanText
{
    public static string Of(Plan plan) => string.Join(
        '\n',
        plan.Steps.Select(step => $"{step.Id} {step.Kind} {string.Join(',', step.Places)} {step.Person} {step.Start}–{step.End} {step.Material} {step.Amount.Millilitres:R}")
            .Concat(plan.PackUses.Select(use => $"{use.StepId} {use.Pack} {use.Amount.Millilitres:R} {use.StripLength.Millimetres:R} {use.Nozzles} {use.Ordered}"))
            .Concat(plan.Orders.Select(order => $"{order.What} {order.Count} {order.OrderBy}"))
            .Append($"{plan.Slot} {plan.ReadyForPaint} {plan.ReadyForDelivery} {plan.Cost}"));

    /// <summary>What the checker has against a plan, in words; empty where it holds.</summary>
    public static string Against(RepairInput input, Plan plan)
    {
        var words = new Formatter(Sentences.Load("en"), Notation.Of(input.Shop, input.Repair.Now));
        return string.Join('\n', PlanChecker.Check(input, plan).Select(reason => $"{input.Repair.Id} {plan.Aim}: {words.Sentence(reason)}"));
    }
}
