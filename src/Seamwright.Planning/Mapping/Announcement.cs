using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Work;
using Step = Seamwright.Work.Step;

namespace Seamwright.Planning.Mapping;

/// <summary>What people were told: open work with its day and person, the slot, the day of hand-over.</summary>
/// <param name="Works">Announced work that is still open.</param>
/// <param name="Slot">Paint slot.</param>
/// <param name="HandOver">Hand-over.</param>
internal sealed record Announcement(ImmutableArray<Step> Works, Instant Slot, Instant HandOver)
{
    /// <summary>Metal work goes with the layer that it is for, lamps with their seam: nobody waits for them, so moving them costs nothing by itself.</summary>
    public static bool IsPriced(StepKind kind) =>
        kind is StepKind.Prime or StepKind.Bond or StepKind.CleanBond or StepKind.Operation or StepKind.Seal or StepKind.StoneChip
            or StepKind.Foam or StepKind.Wax or StepKind.Refit or StepKind.FinalCheck;

    /// <summary>Work that is always on some place; wax, refit and the like are on the whole car.</summary>
    public static bool NeedsPlace(StepKind kind) =>
        kind is StepKind.Seal or StepKind.Prime or StepKind.Abrade or StepKind.Strip or StepKind.Bond or StepKind.CleanBond or StepKind.Operation
            or StepKind.StoneChip or StepKind.Foam or StepKind.Lamp;

    /// <summary>The announced work of a kind on a place (the first of several), or on the whole car; metal work from the start of its go.</summary>
    public Step? Find(StepKind kind, ImmutableArray<PlaceId> places)
    {
        var work = Works.FirstOrDefault(step => step.Kind == kind && step.Person is not null && (places.IsEmpty || step.Places.Contains(places[0])));
        return work is not null && IsMetal(kind) ? work with { Start = StartOfGo(work) } : work;
    }

    /// <summary>Who was announced for work of a kind with a material; for metal work, for any of it.</summary>
    public ImmutableHashSet<string> PeopleFor(StepKind kind, MaterialId? material) =>
        [.. Works.Where(step => (IsMetal(kind) ? IsMetal(step.Kind) : step.Kind == kind && step.Material == material)).Select(step => step.Person).OfType<string>()];

    private static bool IsMetal(StepKind kind) => kind is StepKind.Abrade or StepKind.Strip;

    private Instant StartOfGo(Step work)
    {
        var start = work.Start;
        while (Works.FirstOrDefault(step => IsMetal(step.Kind) && step.Person == work.Person && step.End == start && step.Start < start) is { } before)
            start = before.Start;
        return start;
    }
}

/// <summary>Where a problem charges for moves. [solver money]</summary>
/// <param name="Modes">Modes that mean a move.</param>
/// <param name="Crews">Crews that were not announced.</param>
/// <param name="HandOver">From which minute on handing over is a moved promise.</param>
internal sealed record MovePrices(
    ImmutableDictionary<(ActivityId, ModeId), long> Modes, ImmutableDictionary<(BatchId, CrewId), long> Crews, (int From, long Amount)? HandOver)
{
    /// <summary>What the moves of a schedule cost.</summary>
    public long In(Schedule schedule)
    {
        long sum = 0;
        if (Modes.IsEmpty && Crews.IsEmpty && HandOver is null)
            return sum;
        foreach (var planned in schedule.Activities.Where(planned => planned is { Present: true, Mode: not null }))
            sum += Modes.GetValueOrDefault((planned.Id, planned.Mode!.Value));
        foreach (var batch in schedule.Batches.Where(batch => batch is { Used: true, Crew: not null }))
            sum += Crews.GetValueOrDefault((batch.Id, batch.Crew!.Value));
        if (HandOver is { } handOver && schedule[ProjectBuilder.Deliver].Start >= handOver.From)
            sum += handOver.Amount;
        return sum;
    }
}
