using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Reading;

/// <summary>A schedule back to steps: sessions, single works, lamps, and the cures that run by themselves.</summary>
internal sealed class StepReader(PlanningCase planning, Found found)
{
    private readonly List<Work.Step> _steps = [];

    public static ImmutableArray<Work.Step> Read(PlanningCase planning, Found found) => new StepReader(planning, found).Read();

    private ImmutableArray<Work.Step> Read()
    {
        foreach (var planned in found.Schedule.Activities)
        {
            if (planned is { Present: true, Batch: null, Mode: { } mode } && found.Project.Activities[planned.Id] is { Kind: { } kind } meaning && found.Project.Modes.GetValueOrDefault((planned.Id, mode)) is not { IsDone: true })
                AddSingle(planned, kind, meaning, found.Project.Modes.GetValueOrDefault((planned.Id, mode)));
        }
        foreach (var batch in found.Schedule.Batches)
        {
            if (batch.Used)
                AddSession(batch, found.Project.Batches[batch.Id]);
        }
        AddBondCures();
        var ordered = _steps.OrderBy(step => step.Start).ThenBy(step => step.Person is null).ThenBy(step => step.End).ThenBy(step => step.Kind).ToList();
        return [.. ordered.Select((step, index) => step with { Id = "S" + (index + 1).ToString("00", CultureInfo.InvariantCulture) })];
    }

    private void AddSingle(PlannedActivity planned, StepKind kind, ActivityMeaning meaning, ModeMeaning? mode)
    {
        var sheet = mode?.Sheet ?? meaning.Sheet;
        int minutes = mode?.Labour ?? planned.End - planned.Start;
        _steps.Add(new Work.Step
        {
            Id = "",
            Kind = kind,
            Places = meaning.Places,
            Person = mode?.Person,
            Start = At(planned.Start),
            End = At(planned.End),
            Labour = mode?.Person is null ? Duration.Zero : Duration.FromMinutes(minutes),
            Material = sheet?.Id,
            Amount = kind switch
            {
                StepKind.Bond => meaning.Amount,
                StepKind.Lamp => Volume.Zero,
                _ => AmountOf(kind, meaning.Places, sheet),
            },
            Nozzles = kind is StepKind.Foam or StepKind.Bond && sheet is not null && Nozzles.Takes(sheet) ? 1 : 0,
            HeatTo = meaning.HeatTo ?? (kind == StepKind.StoneChip && mode?.Labour is not null ? planning.Shop.Booth?.PanelTemperature : null),
        });
        if (kind == StepKind.Prime && sheet?.Milestone(MilestoneKind.NextLayer) is { } next)
            AddCure(StepKind.PrimerCure, meaning.Places, sheet, planned.End, planning.Cures.Reached(next).At(planned.End));
        if (kind == StepKind.StoneChip && mode?.Labour is null && sheet is not null && (sheet.Milestone(MilestoneKind.Paint) ?? sheet.Milestone(MilestoneKind.Full)) is { } ready)
            AddCure(StepKind.PrimerCure, meaning.Places, sheet, planned.End, planning.Cures.Reached(ready).At(planned.End));
    }

    private void AddSession(PlannedBatch batch, BatchMeaning meaning)
    {
        if (meaning.Sheet is not { } sheet)
        {
            AddMetalWork(batch);
            return;
        }
        var members = found.Schedule.Activities.Where(planned => planned.Present && planned.Batch == batch.Id).ToList();
        var options = members.Select(member => found.Project.Modes.GetValueOrDefault((member.Id, member.Mode!.Value))?.Option).OfType<JointOption>().ToList();
        var places = members.SelectMany(member => found.Project.Activities[member.Id].Places).ToImmutableArray();
        bool primes = meaning.Kind == StepKind.Prime;
        _steps.Add(new Work.Step
        {
            Id = "",
            Kind = meaning.Kind,
            Places = places,
            Person = batch.Crew?.Value,
            Start = At(batch.Start),
            End = At(batch.End),
            Labour = Duration.FromMinutes(batch.End - batch.Start),
            Material = sheet.Id,
            Amount = primes ? AmountOf(StepKind.Prime, places, sheet) : options.Aggregate(Volume.Zero, (sum, option) => sum + option.Amount),
            StripLength = options.Aggregate(Length.Zero, (sum, option) => sum + option.StripLength),
            Nozzles = meaning.Nozzles + members.Sum(member => found.Project.Modes.GetValueOrDefault((member.Id, member.Mode!.Value))?.Nozzles ?? 0),
        });
        if (primes && sheet.Milestone(MilestoneKind.NextLayer) is { } next)
            AddCure(StepKind.PrimerCure, places, sheet, batch.End, planning.Cures.Reached(next).At(batch.End));
        if (!primes && meaning.Heat != HeatUse.After)
        {
            foreach (var alike in options.Where(option => option.Ready is not null).GroupBy(option => option.Ready!.At(batch.End)))
                AddCure(StepKind.SealerCure, [.. alike.Select(option => option.Joint.Id)], sheet, batch.End, alike.Key);
        }
    }

    /// <summary>Metal work in one go: what is stripped first, then what is abraded, one place after the other.</summary>
    private void AddMetalWork(PlannedBatch batch)
    {
        int at = batch.Start;
        var members = found.Schedule.Activities.Where(planned => planned.Present && planned.Batch == batch.Id);
        foreach (var member in members.OrderBy(member => found.Project.Activities[member.Id].Kind))
        {
            int minutes = found.Project.Project.Activities.First(activity => activity.Id == member.Id).Modes.First(mode => mode.Id == member.Mode).Work;
            _steps.Add(new Work.Step
            {
                Id = "",
                Kind = found.Project.Activities[member.Id].Kind!.Value,
                Places = found.Project.Activities[member.Id].Places,
                Person = batch.Crew?.Value,
                Start = At(at),
                End = At(at + minutes),
                Labour = Duration.FromMinutes(minutes),
            });
            at += minutes;
        }
    }

    private void AddCure(StepKind kind, ImmutableArray<PlaceId> places, DataSheet sheet, int from, int to)
    {
        if (to > from)
            _steps.Add(new Work.Step { Id = "", Kind = kind, Places = places, Start = At(from), End = At(to), Material = sheet.Id });
    }

    /// <summary>Clamps hold from closing (or from now) until somebody takes them off.</summary>
    private void AddBondCures()
    {
        foreach (var bond in planning.Repair.Bonds.Where(bond => planning.Repair.DoneOn(bond.Id, StepKind.CleanBond) is null))
        {
            var fit = found.Schedule.Find(new ActivityId($"fit:{bond.Id}"));
            int from = fit is { Present: true } ? fit.End : planning.Time.Now;
            int to = found.Schedule[new ActivityId($"unclamp:{bond.Id}")].Start;
            var sheet = planning.Sheets[bond.Adhesive];
            if (sheet.Milestone(MilestoneKind.Handling) is { } handling)
            {
                var hold = found.Schedule[new ActivityId($"hold:{bond.Id}")];
                bool heated = hold.Mode?.Value == "lamp";
                int ready = heated ? to : bond.Closed is { } closed ? planning.Time.Ceiling(planning.FinishOn(bond.Id, handling.Law, handling.Needed, closed) ?? At(to)) : planning.Cures.Reached(handling).At(from);
                AddCure(StepKind.BondCure, [bond.Id], sheet, from, Math.Min(to, Math.Max(from, ready)));
            }
        }
    }

    private Volume AmountOf(StepKind kind, ImmutableArray<PlaceId> places, DataSheet? sheet)
    {
        if (sheet is null)
            return kind == StepKind.Wax && planning.WaxSheet is { } wax ? AmountOf(kind, places, wax) : Volume.Zero;
        var repair = planning.Repair;
        var sum = Volume.Zero;
        foreach (var place in places)
        {
            sum += kind switch
            {
                StepKind.Prime when repair.Joints.FirstOrDefault(joint => joint.Id == place) is { } joint => Coatings.Primer(sheet, Coatings.PrimedLength(joint), Area.Zero) ?? Volume.Zero,
                StepKind.Prime when repair.BareAreas.FirstOrDefault(area => area.Id == place) is { } area => Coatings.Primer(sheet, Length.Zero, area.Area) ?? Volume.Zero,
                StepKind.Prime when repair.Bonds.FirstOrDefault(bond => bond.Id == place) is { } bond => Coatings.Primer(sheet, bond.Length, Area.Zero) ?? Volume.Zero,
                StepKind.StoneChip when repair.BareAreas.FirstOrDefault(area => area.Id == place) is { } area => Coatings.StoneChip(sheet, area.Area) ?? Volume.Zero,
                StepKind.Foam when repair.Cavities.FirstOrDefault(cavity => cavity.Id == place) is { } cavity => FoamAmount.Of(sheet, cavity, planning.Shop.Amounts),
                StepKind.Wax when repair.Cavities.FirstOrDefault(cavity => cavity.Id == place) is { } cavity => Coatings.Wax(sheet, cavity) ?? Volume.Zero,
                _ => Volume.Zero,
            };
        }
        return sum;
    }

    private Instant At(int minute) => planning.Time.At(minute);
}
