using Seamwright.Planning;
using Seamwright.Work;

namespace Seamwright.Program;

/// <summary>The way from the command line to the planner.</summary>
internal static class Planner
{
    /// <summary>Answers for a repair.</summary>
    public static PlanAnswer Answer(RepairInput input, PlanOptions options) => RepairPlanner.Answer(input, options);
}
