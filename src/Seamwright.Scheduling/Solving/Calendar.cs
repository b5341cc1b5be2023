using System.Collections.Immutable;

namespace Seamwright.Scheduling.Solving;

/// <summary>Where work may lie. Calendars become domains of starts; blocking intervals were far slower.</summary>
internal sealed class Calendar(Project project)
{
    private readonly Dictionary<ResourceId, Resource> resources = project.Resources.ToDictionary(r => r.Id);

    /// <summary>Stretches that lie inside one open window of every demanded resource; the whole horizon if nothing is demanded.</summary>
    public List<Window> Common(ImmutableArray<Demand> demands)
    {
        List<Window> common = [new Window(0, project.Horizon)];
        foreach (Demand demand in demands)
        {
            common =
            [
                .. from mine in common
                   from other in resources[demand.Resource].Open
                   let both = new Window(Math.Max(mine.From, other.From), Math.Min(mine.To, other.To))
                   where both.From <= both.To && other.From < mine.To && mine.From < other.To
                   select both,
            ];
        }

        return common;
    }

    /// <summary>Grid starts of work of a given length inside one of the stretches and inside the allowed starts.</summary>
    public MinuteSet Starts(IEnumerable<Window> stretches, int duration, ImmutableArray<Window> allowed)
    {
        MinuteSet fits = MinuteSet.OnGrid(project.StartStep, stretches.Select(w => (w.From, w.To - duration)));
        return Inside(fits, allowed);
    }

    /// <summary>Only those starts that the windows allow; no window allows all.</summary>
    public static MinuteSet Inside(MinuteSet starts, ImmutableArray<Window> allowed) =>
        allowed.IsEmpty ? starts : starts.Within([.. allowed.Select(w => (w.From, w.To - 1))]);
}
