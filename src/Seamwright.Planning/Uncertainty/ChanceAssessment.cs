using Seamwright.Planning.Conflicts;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>How likely a repair's plan is kept: plans, draws samples of the decided plan, and looks for a likelier one where it is not likely enough.</summary>
public static class ChanceAssessment
{
    /// <summary>Answers for a repair. Pure: equal inputs, options and engine version give the equal answer, whatever the threads.</summary>
    /// <param name="input">Repair, shop, sheets, stock and climate.</param>
    /// <param name="planning">How to plan; null = defaults.</param>
    /// <param name="options">How to draw; null = defaults.</param>
    public static ChanceAnswer Answer(RepairInput input, PlanOptions? planning = null, ChanceOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        var (asked, drawn) = (planning ?? new PlanOptions(), options ?? new ChanceOptions());
        var spreads = input.Shop.Spreads;
        var subject = new PlanningCase(input);
        var search = new PlanSearch(subject, asked);
        if (search.Best(Variation.Recommended) is not { } best)
            return new ChanceAnswer { Wanted = spreads.Wanted, Conflicts = ConflictFinder.Find(subject, asked) };

        var reader = new PlanReader(subject, asked);
        var network = NetworkReader.Read(subject, best, spreads);
        var chance = new ChanceReader(network, subject.Time, spreads, drawn).Read(SlotOf(best));
        var answer = new ChanceAnswer { Plan = reader.Read(best, PlanAim.Recommended), Chance = chance, Wanted = spreads.Wanted };
        return chance.BySlot.Value >= spreads.Wanted || !drawn.SeekRobust
            ? answer
            : new RobustSearch(subject, search, reader, drawn).Into(answer, best);
    }

    internal static int SlotOf(Found found) => found.Schedule[ProjectBuilder.Paint].Start;
}
