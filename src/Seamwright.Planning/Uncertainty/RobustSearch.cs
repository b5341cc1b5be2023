using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>
/// Looks for the cheapest plan that is likely enough. Each candidate is a plan in its own right, sampled with the same numbers: the fastest; another material on the joints
/// that are most often waited for; plans made again with a reserve before the slot that grows by what is missing.
/// </summary>
internal sealed class RobustSearch(PlanningCase planning, PlanSearch search, PlanReader reader, ChanceOptions options)
{
    /// <summary>Joints on which other materials are tried.</summary>
    private const int Joints = 2;

    /// <summary>Other materials tried on each.</summary>
    private const int Materials = 3;

    /// <summary>Plans made again with a growing reserve.</summary>
    private const int Reserves = 4;

    private readonly List<RobustPlan> _looked = [];

    /// <summary>The answer with the robust plan, or the likeliest where none is likely enough.</summary>
    public ChanceAnswer Into(ChanceAnswer answer, Found recommended)
    {
        var plan = answer.Plan!;
        if (search.Fastest(recommended) is { } fastest)
            Look(RobustOrigin.Fastest, fastest, plan);
        foreach (var (joint, material) in OtherMaterials(answer.Chance!, plan))
        {
            if (search.Best(Variation.Recommended with { Forced = ImmutableDictionary<PlaceId, MaterialId>.Empty.Add(joint, material) }, recommended) is { } other)
                Look(RobustOrigin.OtherMaterial, other, plan);
        }
        LookWithReserve(answer, recommended);

        var likely = _looked.Where(candidate => candidate.BySlot.Value >= answer.Wanted).ToList();
        return answer with
        {
            LookedAt = _looked.Count,
            Robust = likely.OrderBy(candidate => candidate.CostShift.Amount).ThenByDescending(candidate => candidate.BySlot.Value).FirstOrDefault(),
            Likeliest = likely.Count > 0 ? null : _looked.OrderByDescending(candidate => candidate.BySlot.Value).ThenBy(candidate => candidate.CostShift.Amount).FirstOrDefault(),
        };
    }

    /// <summary>The joints most often waited for, with the other materials that may go there.</summary>
    private IEnumerable<(PlaceId Joint, MaterialId Material)> OtherMaterials(Chance chance, Plan plan)
    {
        var waitedFor = chance.Critical.Where(step => step.Kind is null).SelectMany(step => step.Places).Distinct();
        foreach (var joint in waitedFor.Where(place => plan.Joints.Any(decided => decided.Joint == place && decided.Material is not null)).Take(Joints))
        {
            var chosen = plan.Joints.First(decided => decided.Joint == joint).Material;
            var facts = planning.Joints.FirstOrDefault(facts => facts.Joint.Id == joint);
            var others = facts?.Options.Where(option => option.Admissible && option.Sheet.Id != chosen).Select(option => option.Sheet.Id).Distinct().Take(Materials) ?? [];
            foreach (var material in others)
                yield return (joint, material);
        }
    }

    /// <summary>
    /// Reserve by reserve: what the wanted share of samples took longer than planned is asked for before the slot, then what was still missing.
    /// </summary>
    private void LookWithReserve(ChanceAnswer answer, Found recommended)
    {
        double reserve = 0;
        var found = recommended;
        for (int round = 0; round < Reserves; round++)
        {
            var (_, _, ascending) = Sample(found);
            double needed = ascending[(int)Math.Min(ascending.Length - 1, Math.Ceiling(answer.Wanted * ascending.Length))] - ReadyMoment.Of(found);
            if (!double.IsFinite(needed))
                return;
            reserve = Math.Max(reserve + PlanTime.Grid, Math.Ceiling(needed / PlanTime.Grid) * PlanTime.Grid);
            if (search.Best(new Variation { TimesReady = true, Reserve = (int)reserve }, recommended) is not { } next)
                return;
            found = next;
            if (Look(RobustOrigin.Reserve, found, answer.Plan!).BySlot.Value >= answer.Wanted)
                return;
        }
    }

    private RobustPlan Look(RobustOrigin origin, Found found, Plan recommended)
    {
        var (bySlot, nineOfTen, _) = Sample(found);
        var plan = reader.Read(found, origin == RobustOrigin.Fastest ? PlanAim.Fastest : PlanAim.Recommended);
        var changed = plan.Joints.Zip(recommended.Joints).Where(pair => pair.First.Material != pair.Second.Material).Select(pair => (pair.First.Joint, pair.First.Material)).ToImmutableArray();
        var looked = new RobustPlan(origin, plan, plan.Cost.Total - recommended.Cost.Total, bySlot, nineOfTen, changed);
        _looked.Add(looked);
        return looked;
    }

    private (Estimate BySlot, ReadyEstimate NineOfTen, double[] Ascending) Sample(Found found)
    {
        var spreads = planning.Shop.Spreads;
        return new ChanceReader(NetworkReader.Read(planning, found, spreads), planning.Time, spreads, options).Short(ChanceAssessment.SlotOf(found));
    }
}
