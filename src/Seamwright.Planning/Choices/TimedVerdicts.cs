using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Planning.Choices;

/// <summary>Verdicts that need this shop's air, shelf and slots: the coat's window, the panel's temperature, packs, and cure against the last slot.</summary>
internal static class TimedVerdicts
{
    public static IEnumerable<Verdict> For(PlanningCase planning, JointOption option, bool chosen)
    {
        if (!IsSeamMaterial(option.Sheet.Use))
            yield break;
        yield return CoatWindow(planning, option);
        yield return Limits(planning, option);
        foreach (var verdict in Packs(planning, option.Sheet))
            yield return verdict;
        if (Training(planning, option.Sheet) is { } training)
            yield return training;
        yield return CureTime(planning, option, chosen);
        yield return PaintWindow(planning, option, chosen);
    }

    private static bool IsSeamMaterial(MaterialUse use) =>
        use is MaterialUse.SeamSealer or MaterialUse.SeamTape or MaterialUse.AntiFlutter or MaterialUse.FlexibleFoam or MaterialUse.RigidFoam;

    private static Verdict CoatWindow(PlanningCase planning, JointOption option)
    {
        const string rule = "window.coat";
        var joint = option.Joint;
        if (joint.Surface.Applied is not { } applied || planning.SheetOf(joint.Surface.Material) is not { } coat || coat.NextLayerWithin is not { } window)
            return new Verdict(VerdictKind.Fine, rule, Reason.Of("coat-window-none"), "common practice");
        var end = planning.Cures.LatestNextLayer(window, applied);
        return option.Preparation != Preparation.AsIs
            ? new Verdict(VerdictKind.Advice, rule, Reason.Of("coat-window-renewed", coat.Id, end, option.Preparation), coat.Source)
            : end < planning.Repair.Now
                ? new Verdict(VerdictKind.Advice, rule, Reason.Of("coat-window-missed", coat.Id, end), coat.Source)
                : new Verdict(VerdictKind.Fine, rule, Reason.Of("coat-window-open", coat.Id, end), coat.Source);
    }

    private static Verdict Limits(PlanningCase planning, JointOption option)
    {
        const string rule = "climate.application";
        var sheet = option.Sheet;
        var now = planning.Repair.Now;
        var panel = planning.Cures.Panel;
        if (panel.TemperatureAt(now) is var cold && sheet.Limits.PanelFrom is { } floor && cold < floor && planning.Shop.Lamps is not null && !planning.Application.TooColdOnly(sheet).IsEmpty)
            return new Verdict(VerdictKind.Advice, rule, Reason.Of("limits-with-lamp", cold, sheet.Id, floor), sheet.Source);
        if (planning.Application.For(sheet) is not [var first, ..])
            return new Verdict(VerdictKind.Refused, rule, Worst(planning, sheet), sheet.Source);
        return first.From <= planning.Time.Now + PlanTime.Grid
            ? new Verdict(VerdictKind.Fine, rule, Reason.Of("limits-hold", panel.TemperatureAt(now), panel.DewPointMargin(now)), sheet.Source)
            : new Verdict(VerdictKind.Advice, rule, Reason.Of("limits-later", panel.TemperatureAt(now), planning.Time.At(first.From), Worst(planning, sheet)), sheet.Source);
    }

    private static Reason Worst(PlanningCase planning, DataSheet sheet)
    {
        var now = planning.Repair.Now;
        var verdicts = ClimateRules.Judge(sheet, planning.Cures.Panel.TemperatureAt(now), planning.Cures.Panel.AirAt(now));
        return Verdicts.Deciding(verdicts).First().Reason;
    }

    private static IEnumerable<Verdict> Packs(PlanningCase planning, DataSheet sheet)
    {
        var packs = planning.Input.Stock.Packs.Where(pack => pack.Material == sheet.Id).ToList();
        int loose = planning.Input.Stock.Nozzles.Sum(nozzles => nozzles.Count);
        bool usable = false;
        foreach (var pack in packs)
        {
            var verdicts = PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, loose);
            usable |= Verdicts.MayBeUsed(verdicts);
            foreach (var verdict in verdicts.Where(verdict => verdict.Kind > VerdictKind.Fine))
            {
                // One bad pack does not rule out the material: it is told as advice, and the last verdict says what there is.
                yield return verdict.Kind == VerdictKind.Advice
                    ? verdict
                    : verdict with { Kind = VerdictKind.Advice, Reason = Reason.Of("pack-set-apart", pack.Id, verdict.Reason) };
            }
        }
        bool orderable = planning.Shop.Supplier is { } supplier && !supplier.Lacks.Contains(sheet.Id.Value)
            && SupplierHours.Arrival(supplier, planning.Shop.Zone, planning.Repair.Now) is { } arrives && planning.Time.Ceiling(arrives) <= planning.Time.Horizon;
        yield return usable ? new Verdict(VerdictKind.Fine, "stock.pack", Reason.Of("stock-has", sheet.Id), "stock")
            : orderable ? new Verdict(VerdictKind.Advice, "stock.pack", Reason.Of("stock-to-order", sheet.Id), "stock")
            : new Verdict(VerdictKind.Refused, "stock.pack", Reason.Of("stock-none", sheet.Id), "stock");
    }

    /// <summary>Somebody who seals must hold the sheet's training today; null where somebody does or no list is kept.</summary>
    private static Verdict? Training(PlanningCase planning, DataSheet sheet)
    {
        if (sheet.Trainings.IsEmpty)
            return null;
        var today = planning.Repair.Now.InZone(planning.Shop.Zone).Date;
        var sealers = planning.Shop.People.Where(person => person.Skills.Contains(Shops.Skill.Seal));
        var best = sealers.SelectMany(person => PersonRules.Judge(person, sheet, today)).Where(verdict => verdict.RuleId == "person.training").OrderBy(verdict => verdict.Kind).FirstOrDefault();
        return best is { Kind: VerdictKind.Refused }
            ? best with { Reason = Reason.Of("fact-no-training", sheet.Id, string.Join(", ", sheet.Trainings)) }
            : null;
    }

    private static Verdict CureTime(PlanningCase planning, JointOption option, bool chosen)
    {
        const string rule = "cure.slot";
        if (option.Ready is not { } ready || planning.Repair.PaintSlots.IsEmpty)
            return new Verdict(VerdictKind.Fine, rule, Reason.Of("cure-nothing-waits"), option.Sheet.Source);
        int start = EarliestStart(planning, option);
        int ends = ready.At(start);
        var takes = Duration.FromMinutes(Math.Min(ends, 60_000_000) - start);
        var last = planning.Repair.PaintSlots[^1];
        var at = planning.Time.At(start);
        bool through = option.Sheet.PaintNeedsCuredThrough && option.Sheet.DepthCure is not null;
        if (ends > planning.Time.Ceiling(last) && !chosen && !LampCouldHelp(planning, option))
        {
            var depth = Beads.Depth(option.Joint);
            return ends == int.MaxValue
                ? new Verdict(VerdictKind.Refused, rule, Reason.Of("cure-never", option.Sheet.Id, last), option.Sheet.Source)
                : through
                    ? new Verdict(VerdictKind.Refused, rule, Reason.Of("cure-through-too-late", option.Sheet.Id, depth, option.Sheet.DepthCure!.Needed(depth), takes, planning.Time.At(ends), last), option.Sheet.Source)
                    : new Verdict(VerdictKind.Refused, rule, Reason.Of("cure-too-late", option.Sheet.Id, takes, planning.Time.At(ends), last), option.Sheet.Source);
        }
        return new Verdict(VerdictKind.Fine, rule, Reason.Of("cure-in-time", option.Sheet.Id, takes, at, planning.Time.At(Math.Min(ends, planning.Time.Horizon))), option.Sheet.Source);
    }

    private static bool LampCouldHelp(PlanningCase planning, JointOption option) =>
        planning.Shop.Lamps is not null && option.Sheet.IsTwoPart && option.Sheet.Heat is not null;

    /// <summary>A fast material with a short window can be too early for every slot: the last working hour before it lies too far back.</summary>
    private static Verdict PaintWindow(PlanningCase planning, JointOption option, bool chosen)
    {
        const string rule = "window.paint";
        if (option.PaintBy is not { } paintBy || option.Ready is not { } ready || option.Joint.Stage == Stage.BeforeAccessCloses || planning.Repair.PaintSlots.IsEmpty)
            return new Verdict(VerdictKind.Fine, rule, Reason.Of("paint-window-none"), option.Sheet.Source);
        bool reached = false;
        foreach (var slot in planning.Repair.PaintSlots)
        {
            int at = planning.Time.Floor(slot);
            int latest = LatestWork(planning, option, Math.Min(at, ready.LatestFor(at, planning.Time.Horizon)));
            if (latest >= 0 && paintBy.At(latest) >= at)
                return new Verdict(VerdictKind.Fine, rule, Reason.Of("paint-window-fits", option.Sheet.Id, slot), option.Sheet.Source);
            reached |= latest >= 0;
        }
        // Where no slot is reached in time, the cure says so; the window is not what stands in the way.
        if (!reached)
            return new Verdict(VerdictKind.Fine, rule, Reason.Of("paint-window-none"), option.Sheet.Source);
        var window = option.Sheet.NextLayerWithin!.Clock;
        return new Verdict(chosen ? VerdictKind.Advice : VerdictKind.Refused, rule, Reason.Of("paint-window-too-short", option.Sheet.Id, window), option.Sheet.Source);
    }

    /// <summary>Last minute at or before a minute at which somebody could end applying it; −1 for none.</summary>
    private static int LatestWork(PlanningCase planning, JointOption option, int before)
    {
        int latest = -1;
        foreach (var (from, to) in Workable(planning, option))
        {
            int end = Math.Min(to, before);
            if (end >= from + option.Work)
                latest = Math.Max(latest, end);
        }
        return latest;
    }

    /// <summary>When somebody could first lay it: in working hours, inside the limits, on a coat that is ready.</summary>
    private static int EarliestStart(PlanningCase planning, JointOption option)
    {
        int coat = option.CoatWindow is [var window] && window.From >= 0 ? window.From : planning.Time.Now;
        var starts = Workable(planning, option).Select(stretch => Math.Max(stretch.From, coat)).ToList();
        return starts.Count > 0 ? starts.Min() : Math.Max(coat, planning.Time.Now);
    }

    /// <summary>Working hours inside the sheet's limits, a lamp for a cold panel counted.</summary>
    private static IEnumerable<(int From, int To)> Workable(PlanningCase planning, JointOption option)
    {
        var stretches = planning.Application.For(option.Sheet);
        if (planning.Shop.Lamps is not null)
            stretches = stretches.AddRange(planning.Application.TooColdOnly(option.Sheet));
        int coat = option.CoatWindow is [var window] && window.From >= 0 ? window.From : planning.Time.Now;
        foreach (var stretch in stretches)
        {
            foreach (var open in planning.Hours.Shop)
            {
                int from = Math.Max(Math.Max(stretch.From, open.From), coat);
                int to = Math.Min(stretch.To, open.To);
                if (from < to)
                    yield return (from, to);
            }
        }
    }
}
