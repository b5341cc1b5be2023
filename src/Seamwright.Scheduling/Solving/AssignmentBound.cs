using Google.OrTools.Graph;

namespace Seamwright.Scheduling;

/// <summary>
/// A lower bound for projects that each need a start of their own on one machine: the cheapest assignment of projects to starts costs no more
/// than any schedule of all of them.
/// </summary>
/// <remarks>Linear sum assignment, solved exactly (Burkard, Dell'Amico and Martello, Assignment Problems, SIAM 2009; solver of OR-Tools).</remarks>
public static class AssignmentBound
{
    /// <summary>Adds up the bounds of the projects, each start given once.</summary>
    /// <param name="projects">Per project the starts it may have, with a lower bound of its cost for each; a project without starts is left out.</param>
    /// <returns>Bound for all of them. [whole money units]</returns>
    public static long Of(IReadOnlyList<IReadOnlyList<(int Start, long Bound)>> projects)
    {
        ArgumentNullException.ThrowIfNull(projects);
        var wanting = projects.Where(own => own.Count > 0).ToList();
        var starts = wanting.SelectMany(own => own.Select(start => start.Start)).Distinct().Order().ToList();
        if (wanting.Count == 0)
            return 0;

        // As many further starts as projects make the square; a project on one of them counts its dearest start.
        var place = starts.Select((start, index) => (start, index)).ToDictionary(pair => pair.start, pair => pair.index);
        int size = starts.Count + wanting.Count;
        var problem = new LinearSumAssignment();
        for (int p = 0; p < size; p++)
        {
            if (p >= wanting.Count)
            {
                for (int s = 0; s < size; s++)
                    problem.AddArcWithCost(p, s, 0);
                continue;
            }
            foreach (var (start, bound) in wanting[p])
                problem.AddArcWithCost(p, place[start], bound);
            long most = wanting[p].Max(start => start.Bound);
            for (int s = starts.Count; s < size; s++)
                problem.AddArcWithCost(p, s, most);
        }
        return problem.Solve() == LinearSumAssignment.Status.OPTIMAL ? problem.OptimalCost() : wanting.Sum(own => own.Min(start => start.Bound));
    }
}
