using System.Globalization;

namespace Seamwright.Scheduling.Benchmarks.Instances;

/// <summary>The shortest known duration of an instance, or that it has none.</summary>
/// <param name="Makespan">Null: it is known that no schedule exists.</param>
/// <param name="Proven">Nothing shorter exists.</param>
internal sealed record BestKnown(int? Makespan, bool Proven)
{
    /// <summary>A table with the columns instance, set, kind, best_known (a number or "infeasible"), is_optimal (0 or 1) and more.</summary>
    public static Dictionary<(string Set, string Instance), BestKnown> Read(string file, string[] lines)
    {
        var known = new Dictionary<(string, string), BestKnown>();
        for (int i = 1; i < lines.Length; i++)
        {
            if (lines[i].Length == 0)
                continue;
            string[] cells = lines[i].Split(',');
            bool none = cells.Length > 3 && cells[3] == "infeasible";
            int makespan = 0;
            if (cells.Length < 5 || !(none || int.TryParse(cells[3], NumberStyles.None, CultureInfo.InvariantCulture, out makespan)))
                throw new UnreadableInstanceException(file, i + 1, "instance, set, kind, best known duration or \"infeasible\" and 0 or 1 were expected.");
            known[(cells[1], cells[0])] = new BestKnown(none ? null : makespan, cells[4] == "1");
        }

        return known;
    }
}
