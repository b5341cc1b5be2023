using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Scheduling;
using Seamwright.Work;

namespace Seamwright.Planning.WholeShop;

/// <summary>A vehicle's schedule with what it takes from the shop.</summary>
internal sealed record Placed
{
    public required Found Found { get; init; }

    /// <summary>Solver money.</summary>
    public long Cost => Found.Schedule.Cost;

    public required ImmutableArray<(string Person, Window Time)> People { get; init; }

    public required ImmutableArray<Window> Lamps { get; init; }

    public required ImmutableArray<Window> Booth { get; init; }

    /// <summary>Stays in a bay: before paint and after it.</summary>
    public required ImmutableArray<Window> Bays { get; init; }

    /// <summary>Packs, orders and what is missing, beside what the others had taken when it was placed. Worked out when first asked for.</summary>
    public required Lazy<Supplies> Supplies { get; init; }

    public ImmutableArray<PackUse> Packs => Supplies.Value.Uses;

    /// <summary>Whether the shelves give what the schedule counts on: nothing is missing, and nothing is ordered that it did not pay for.</summary>
    public bool IsSupplied => Supplies.Value.IsComplete && (Supplies.Value.Orders.IsEmpty || !Found.Schedule.Unlocked.IsEmpty);

    /// <summary>Reads off a schedule what it occupies.</summary>
    public static Placed Of(PlanningCase planning, Found found)
    {
        var (project, schedule) = (found.Project.Project, found.Schedule);
        var people = ImmutableArray.CreateBuilder<(string, Window)>();
        var lamps = ImmutableArray.CreateBuilder<Window>();
        var booth = ImmutableArray.CreateBuilder<Window>();
        void Take(ImmutableArray<Demand> demands, int from, int to)
        {
            if (from >= to)
                return;
            foreach (var demand in demands)
            {
                if (ProjectBuilder.PersonOf(demand.Resource) is { } person)
                    people.Add((person, new Window(from, to)));
                else if (demand.Resource == ProjectBuilder.Lamp)
                    lamps.Add(new Window(from, to));
                else if (demand.Resource == ProjectBuilder.Booth)
                    booth.Add(new Window(from, to));
            }
        }

        foreach (var activity in project.Activities)
        {
            if (schedule[activity.Id] is { Present: true, Batch: null, Mode: { } mode } done && !activity.Id.Value.StartsWith(ProjectBuilder.OthersLamp, StringComparison.Ordinal))
                Take(activity.Modes.First(candidate => candidate.Id == mode).Demands, done.Start, done.End);
        }
        foreach (var batch in project.Batches)
        {
            if (schedule[batch.Id] is { Used: true, Crew: { } crew } done)
                Take(batch.Crews.First(candidate => candidate.Id == crew).Demands, done.Start, done.End);
        }

        var paint = schedule[ProjectBuilder.Paint];
        booth.Add(new Window(paint.Start, paint.End));
        if (found.Project.Modes.GetValueOrDefault((ProjectBuilder.Paint, paint.Mode!.Value))?.Person is { } painter)
            people.Add((painter, new Window(paint.Start, paint.End)));
        var work = people.Select(item => item.Item2).Where(time => time.To <= paint.Start).ToList();
        int end = people.Select(item => item.Item2.To).Max();
        var bays = ImmutableArray.CreateBuilder<Window>();
        if (work.Count > 0)
            bays.Add(new Window(work.Min(time => time.From), paint.Start));
        if (end > paint.End)
            bays.Add(new Window(paint.End, end));
        return new Placed
        {
            Found = found,
            People = people.ToImmutable(),
            Lamps = lamps.ToImmutable(),
            Booth = booth.ToImmutable(),
            Bays = bays.ToImmutable(),
            Supplies = new(() => Reading.Supplies.For(planning, StepReader.Read(planning, found), found.Project.Variation.Others)),
        };
    }
}
