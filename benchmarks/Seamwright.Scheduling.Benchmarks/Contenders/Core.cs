namespace Seamwright.Scheduling.Benchmarks.Contenders;

/// <summary>The scheduling core's solver.</summary>
internal static class Core
{
    public static Answer Solve(MakespanProblem problem, Limits limits)
    {
        MakespanAnswer answer = MakespanSolver.Solve(problem, new MakespanOptions { TimeLimit = limits.Time, Workers = limits.Workers, Seed = limits.Seed });
        return new Answer(answer.Schedule, answer.LowerBound, answer.Infeasible);
    }
}
