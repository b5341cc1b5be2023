using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;
using Seamwright.Work;

namespace Seamwright.Planning.Conflicts;

/// <summary>
/// Whether any schedule exists with some facts set aside. Each question is asked once; the first schedule found ends a search, and the last slot,
/// which leaves most time, is looked at first.
/// </summary>
internal sealed class Feasibility(PlanningCase planning, PlanOptions options)
{
    /// <summary>After so many questions only what is known already is used: a report that comes late helps nobody.</summary>
    private const int MostQuestions = 150;

    /// <summary>A question that is not settled within this counts as no. [s]</summary>
    private const double Longest = 1;

    private readonly Dictionary<string, bool> _known = [];
    private Schedule? _last;

    /// <summary>Whether a plan exists; no where the search could not tell.</summary>
    public bool Is(IEnumerable<Fact> aside)
    {
        ImmutableHashSet<string> ids = [.. aside.Select(fact => fact.Id)];
        string key = string.Join('|', ids.Order(StringComparer.Ordinal));
        if (_known.TryGetValue(key, out bool known))
            return known;
        var variation = Variation.Recommended with { SetAside = ids };
        bool possible = _known.Count < MostQuestions && Slots(variation).Any(slot => Solve(variation with { Slot = slot }));
        _known.Add(key, possible);
        return possible;
    }

    /// <summary>Slots by their place: the wished ones first, then those offered, the last first.</summary>
    private IEnumerable<int> Slots(Variation variation)
    {
        int offered = planning.Repair.PaintSlots.Length;
        var wished = variation.IsSetAside(FactIds.Slots) ? Enumerable.Range(offered, ProjectBuilder.WishedSlots) : [];
        return wished.Concat(Enumerable.Range(0, offered).Reverse());
    }

    private bool Solve(Variation variation)
    {
        // A lamp that speeds cures makes the model larger: it is asked for where there is no schedule without.
        foreach (bool lamps in planning.Shop.Lamps is null ? (ReadOnlySpan<bool>)[false] : [false, true])
        {
            if (ProjectBuilder.Build(planning, variation with { LampCuresSeals = lamps }) is not { } project)
                return false;
            if (lamps && !project.Batches.Values.Any(batch => batch.Heat == HeatUse.After))
                return false;
            var outcome = ProjectSolver.Solve(project.Project, new SolveOptions
            {
                StopAtFirst = true,
                Hint = _last,
                Seed = options.Seed,
                Deterministic = options.Deterministic,
                TimeLimit = TimeSpan.FromSeconds(Math.Min(Longest, options.TimeLimit.ToTimeSpan().TotalSeconds)),
            });
            if (outcome.Plan is not { } schedule)
                continue;
            _last = schedule;
            return true;
        }
        return false;
    }
}
