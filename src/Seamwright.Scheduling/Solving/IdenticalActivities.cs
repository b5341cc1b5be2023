using System.Globalization;
using System.Text;

namespace Seamwright.Scheduling.Solving;

/// <summary>Finds activities that differ only in their ids, so that the model can count them instead of telling them apart.</summary>
internal static class IdenticalActivities
{
    /// <summary>Groups in the project's order; only activities that are done in batches alone are ever joined.</summary>
    public static List<List<Activity>> Groups(Project project, IEnumerable<ActivityId> keepApart)
    {
        var numbers = new Dictionary<TimeFunction, int>();
        var apart = new HashSet<ActivityId>(keepApart);
        apart.UnionWith(project.Charges.Select(c => c.Activity));
        apart.UnionWith(project.ConditionalWindows.SelectMany(w => new[] { w.Activity, w.WhenActivity }));
        var mentions = Mentions(project, numbers);

        var groups = new Dictionary<string, List<Activity>>();
        foreach (Activity activity in project.Activities)
        {
            bool alone = apart.Contains(activity.Id) || !activity.PresentWhen.IsEmpty || activity.Modes.Any(m => m.Batch is null);
            string key = alone ? "alone " + activity.Id : Describe(activity, mentions);
            if (!groups.TryGetValue(key, out List<Activity>? group))
                groups[key] = group = [];
            group.Add(activity);
        }

        return [.. groups.Values];
    }

    private static string Describe(Activity activity, ILookup<ActivityId, string> mentions)
    {
        var text = new StringBuilder();
        foreach (Mode m in activity.Modes)
            text.Append(CultureInfo.InvariantCulture, $"{m.Cost}/{m.Batch}/{m.Work}/{m.Load}/{string.Join(",", m.Starts)}/{string.Join(",", m.Consumes)};");
        foreach (string mention in mentions[activity.Id].Distinct().Order(StringComparer.Ordinal))
            text.Append('|').Append(mention);
        return text.ToString();
    }

    /// <summary>What lags and triggers say about each activity, with its modes by number and the other side by name.</summary>
    private static ILookup<ActivityId, string> Mentions(Project project, Dictionary<TimeFunction, int> numbers)
    {
        var modes = project.Activities.ToDictionary(a => a.Id, a => a.Modes.Select((m, k) => (m.Id, k)).ToDictionary(p => p.Id, p => p.k));
        string Numbers(ActivityId activity, IEnumerable<ModeId> listed) =>
            string.Join(",", listed.Select(m => modes[activity][m].ToString(CultureInfo.InvariantCulture)).Order(StringComparer.Ordinal));

        string Number(TimeFunction function)
        {
            numbers.TryAdd(function, numbers.Count);
            return numbers[function].ToString(CultureInfo.InvariantCulture);
        }

        var mentions = new List<(ActivityId, string)>();
        foreach (Lag lag in project.Lags)
        {
            string delay = lag.Delay switch
            {
                Delay.ByTime { Function: var f } => "f" + Number(f),
                Delay.Fixed { Minutes: var minutes } => minutes.ToString(CultureInfo.InvariantCulture),
                _ => "",
            };
            string what = $"{lag.Kind} {delay}";
            if (lag.From.Activity is { } from)
                mentions.Add((from, $"{lag.From.Edge} {Numbers(from, lag.FromModes)} {what} to {lag.To} {string.Join(",", lag.ToModes)}"));
            if (lag.To.Activity is { } to)
                mentions.Add((to, $"{lag.To.Edge} {Numbers(to, lag.ToModes)} {what} from {lag.From} {string.Join(",", lag.FromModes)}"));
        }

        foreach (Activity activity in project.Activities)
        {
            foreach (Trigger.InMode trigger in activity.PresentWhen.OfType<Trigger.InMode>())
                mentions.Add((trigger.Activity, $"makes {activity.Id} present {Numbers(trigger.Activity, trigger.Modes)}"));
        }

        return mentions.ToLookup(m => m.Item1, m => m.Item2);
    }
}
