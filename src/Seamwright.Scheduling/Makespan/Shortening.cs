using Seamwright.Scheduling.Makespan.Exact;
using Seamwright.Scheduling.Makespan.Repairing;
using Seamwright.Scheduling.Makespan.Starting;

namespace Seamwright.Scheduling.Makespan;

/// <summary>The searches for shorter schedules: lists first, then parts solved exactly.</summary>
internal sealed class Shortening(SharedSearch search, MakespanOptions options)
{
    /// <summary>List schedules before the exact search starts; they take some 10 ms.</summary>
    private const int StartingLists = 200;

    /// <summary>Share of the time that lists get before parts are solved exactly.</summary>
    private const double ShareOfLists = 0.4;

    private ListEvolution? lists;

    /// <summary>The first schedules, by lists.</summary>
    public void Start()
    {
        if (search.Problem.IsPrecedenceOnly && ModeChoice.Of(search.Problem, options) is { } modes)
        {
            lists = new ListEvolution(search.Problem, modes, new Random(options.Seed));
            for (int n = 0; n < StartingLists && !search.IsDone; n++)
                Offer(lists);
        }
    }

    /// <summary>Searches until everything is proven or time is over.</summary>
    public void Run(int number)
    {
        var random = new Random(options.Seed + number);
        if (lists is not null && !search.Problem.HasModes)
        {
            TimeSpan left = search.Left * (1 - ShareOfLists);
            var evolution = number == 1 ? lists : new ListEvolution(search.Problem, new int[search.Problem.Count], random);
            while (!search.IsDone && search.Left > left)
                Offer(evolution);
        }

        if (search.Makespan is null)
        {
            ExactSearch.RunToFirst(search, random.Next(1, 1_000_000));
            if (search.Makespan is null)
                return;
            search.Tighten();
        }

        var parts = new LargeNeighbourhoodSearch(search, random.Next());
        while (!search.IsDone)
            parts.Step();
    }

    private void Offer(ListEvolution evolution)
    {
        if (evolution.Step())
            search.Offer(evolution.Best!.Value.Starts, evolution.Best.Value.Modes);
    }
}
