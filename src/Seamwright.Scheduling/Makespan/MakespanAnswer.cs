namespace Seamwright.Scheduling;

/// <summary>What came out of solving a <see cref="MakespanProblem"/>.</summary>
/// <param name="Schedule">The shortest schedule found; null if none was found or none exists.</param>
/// <param name="LowerBound">No schedule is shorter. [periods, 0 or more]</param>
/// <param name="Infeasible">It is proven that no schedule exists.</param>
/// <param name="WallTime">From the call to the answer.</param>
public sealed record MakespanAnswer(MakespanSchedule? Schedule, int LowerBound, bool Infeasible, TimeSpan WallTime)
{
    /// <summary>Nothing is left to be found: the schedule is shortest, or there is none.</summary>
    public bool Proven => Infeasible || Schedule?.Makespan <= LowerBound;
}
