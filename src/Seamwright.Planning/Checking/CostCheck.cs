using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Every kind of cost, worked out again from steps, packs and the slot, agrees to the cent.</summary>
internal static class CostCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        var told = plan.Plan.Cost;
        (string Kind, Money Told, decimal Own)[] kinds =
        [
            ("labour", told.Labour, Labour(plan)),
            ("material", told.Material, Material(plan)),
            ("wasted", told.Wasted, 0),
            ("saved", told.SavedFromExpiry, -Saved(plan)),
            ("nozzles", told.Nozzles, plan.Plan.PackUses.Sum(use => use.Nozzles) * plan.Shop.Amounts.NozzlePrice.Amount),
            ("delivery", told.Delivery, plan.Plan.Orders.IsEmpty ? 0 : plan.Shop.Supplier?.PerOrder.Amount ?? 0),
            ("lamp", told.Lamp, plan.Steps.Where(step => step.Kind == StepKind.Lamp).Sum(step => Started(step.End - step.Start + plan.Shop.Lamps!.Cooling) * plan.Shop.Lamps.PerStartedHour.Amount)),
            ("booth", told.Booth, plan.Steps.Where(step => step is { Kind: StepKind.StoneChip, HeatTo: not null }).Sum(step => Started(step.End - step.Start) * plan.Shop.Booth!.PerStartedHour.Amount)),
            ("bay", told.BayTime, BayDays(plan) * plan.Shop.TimeValue.BayDay.Amount),
            ("late", told.Lateness, Late(plan)),
        ];
        foreach (var (kind, money, own) in kinds)
        {
            if (Math.Abs(money.Amount - own) >= 0.005m)
                yield return Reason.Of("check-cost", kind, money, new Money(own, plan.Shop.Currency));
        }
    }

    private static decimal Labour(CheckedPlan plan) => plan.Steps.Sum(step =>
        plan.Shop.People.FirstOrDefault(person => person.Id == step.Person) is { } person ? person.PerHour.Amount * (decimal)step.Labour.TotalMinutes / 60 : 0);

    /// <summary>Used share of each pack; a pack whose rest cannot be kept is paid as far as it was full.</summary>
    private static decimal Material(CheckedPlan plan) => plan.Plan.PackUses.Sum(use =>
    {
        var pack = plan.Sheets[use.Material].Pack;
        if (!pack.SingleUse)
            return Share(pack, use.Amount, use.StripLength);
        var held = plan.Input.Stock.Packs.FirstOrDefault(stocked => stocked.Id == use.Pack);
        return Share(pack, held?.Left ?? pack.Content, held?.StripLeft ?? pack.StripLength);
    });

    private static decimal Share(Packaging pack, Volume volume, Length strip) => pack.Price.Amount
        * (decimal)((pack.Content > Volume.Zero ? volume / pack.Content : 0) + (pack.StripLength > Length.Zero ? strip / pack.StripLength : 0));

    /// <summary>
    /// What comes from a pack that would expire unused is free, where the pack that is used first is such a one, lasts until the last slot and
    /// holds enough for everything that could be made of it, two nozzles' waste for each seam.
    /// </summary>
    private static decimal Saved(CheckedPlan plan)
    {
        var last = plan.Repair.PaintSlots.Append(plan.Repair.Now).Max();
        var usable = plan.Input.Stock.Packs.Where(pack => plan.Sheets.ContainsKey(pack.Material) && EndOf(plan, pack) > plan.Repair.Now && pack is { OnHold: null, PartnerMissing: false } && Holds(pack) > 0).ToList();
        var soon = usable.Where(pack => EndOf(plan, pack) - plan.Repair.Now <= Duration.FromDays(plan.Shop.Amounts.UseUpDays) && !plan.Sheets[pack.Material].Pack.SingleUse).ToList();
        var free = usable.GroupBy(pack => pack.Material)
            .Select(packs => packs.OrderBy(pack => pack.Opened is null && pack.Activated is null).ThenBy(pack => EndOf(plan, pack)).First())
            .Where(first => soon.Contains(first) && !usable.Exists(pack => pack.Material == first.Material && pack.Arrives is not null) && EndOf(plan, first) > last && first.StripLeft <= Length.Zero && first.Left.Millilitres >= MostOf(plan, plan.Sheets[first.Material]))
            .Select(first => first.Material)
            .ToHashSet();
        return plan.Plan.PackUses.Where(use => free.Contains(use.Material) && soon.Exists(pack => pack.Id == use.Pack))
            .Sum(use => Share(plan.Sheets[use.Material].Pack, use.Amount, use.StripLength));
    }

    private static double Holds(Pack pack) => pack.Left.Millilitres + pack.StripLeft.Millimetres;

    /// <summary>First moment at which a pack may no longer be used.</summary>
    private static Instant EndOf(CheckedPlan plan, Pack pack)
    {
        var zone = plan.Shop.Zone;
        var packaging = plan.Sheets[pack.Material].Pack;
        var end = Instant.FromUtc(9000, 1, 1, 0, 0);
        if (pack.Expires is { } day)
            end = Instant.Min(end, zone.AtStartOfDay(day.PlusDays(1)).ToInstant());
        if (pack.Opened is { } opened && packaging.OpenedLifeDays is { } days)
            end = Instant.Min(end, zone.AtStartOfDay(opened.PlusDays(days + 1)).ToInstant());
        if (pack.Activated is { } activated && packaging.ActivatedLife is { } life)
            end = Instant.Min(end, activated + life);
        return end;
    }

    private static double MostOf(CheckedPlan plan, DataSheet sheet)
    {
        var (repair, amounts) = (plan.Repair, plan.Shop.Amounts);
        double waste = sheet.Method == ApplicationMethod.CartridgeWithMixer ? 2 * (amounts.NozzleHeld + amounts.NozzlePurge).Millilitres : 0;
        return sheet.Use switch
        {
            MaterialUse.SeamSealer or MaterialUse.AntiFlutter => plan.SeamJoints.Where(joint => !plan.IsSealed(joint.Id) && sheet.Looks.Contains(joint.Look.Profile)).Sum(joint => Beads.Needed(joint, amounts).Millilitres + waste),
            MaterialUse.Primer => repair.Joints.Sum(joint => Coated(Coatings.Primer(sheet, Coatings.PrimedLength(joint), Area.Zero)))
                + repair.Bonds.Sum(bond => Coated(Coatings.Primer(sheet, bond.Length, Area.Zero))) + repair.BareAreas.Sum(area => Coated(Coatings.Primer(sheet, Length.Zero, area.Area))),
            MaterialUse.PanelAdhesive => repair.Bonds.Sum(bond => Coated(Coatings.Adhesive(sheet, bond)) + waste),
            MaterialUse.StoneChip => repair.BareAreas.Sum(area => Coated(Coatings.StoneChip(sheet, area.Area))),
            MaterialUse.CavityWax => repair.Cavities.Sum(cavity => Coated(Coatings.Wax(sheet, cavity))),
            _ => sheet.Pack.Content.Millilitres,
        };

        static double Coated(Volume? volume) => volume?.Millilitres ?? 0;
    }

    private static decimal Started(Duration span) => (decimal)Math.Ceiling(span.TotalHours - 1e-9);

    private static int BayDays(CheckedPlan plan)
    {
        var (first, last) = ((plan.Repair.FirstSlotOffered ?? plan.Repair.PaintSlots.Append(plan.Plan.Slot).First()).InZone(plan.Shop.Zone).Date, plan.Plan.Slot.InZone(plan.Shop.Zone).Date);
        int days = 0;
        for (var day = first.PlusDays(1); day <= last; day = day.PlusDays(1))
            days += plan.Shop.TimeValue.BayDays.Contains(day.DayOfWeek) && !plan.Shop.Holidays.Contains(day) ? 1 : 0;
        return days;
    }

    /// <summary>What was late before this plan is not its doing: hours count from now on.</summary>
    private static decimal Late(CheckedPlan plan)
    {
        double open = OwnHours.OpenMinutes(plan, Instant.Max(plan.Repair.Promise, plan.Repair.Now), plan.Plan.ReadyForDelivery);
        return Math.Min(plan.Shop.TimeValue.LateAtMost.Amount, (decimal)Math.Ceiling(open / 60 - 1e-9) * plan.Shop.TimeValue.LatePerStartedHour.Amount);
    }
}
