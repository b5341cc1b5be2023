using System.Diagnostics;
using System.Globalization;
using Seamwright.Scheduling.Benchmarks.Contenders;
using Seamwright.Scheduling.Benchmarks.Instances;

namespace Seamwright.Scheduling.Benchmarks.Results;

/// <summary>One contender on one instance: a line of the results file.</summary>
/// <param name="Set">Folder of the instance.</param>
/// <param name="Instance">File of the instance.</param>
/// <param name="Contender">Who solved.</param>
/// <param name="Makespan">Of the schedule found, which has passed the checker; null if there is none.</param>
/// <param name="Proven">The schedule is proven to be shortest, or it is proven that there is none.</param>
/// <param name="Bound">No schedule is shorter.</param>
/// <param name="Seconds">Wall time.</param>
/// <param name="Known">What is known about the instance.</param>
/// <param name="Fault">Empty, or what is wrong with the answer.</param>
internal sealed record Run(
    string Set, string Instance, string Contender, int? Makespan, bool Proven, int? Bound, double Seconds, BestKnown? Known, string Fault)
{
    public const string Head = "set,instance,contender,makespan,proven,bound,seconds,known,known_proven,fault";

    /// <summary>Distance to the shortest known duration; null without schedule or without such a duration.</summary>
    public double? Gap => Makespan is { } found && Known?.Makespan is { } best ? ((double)found / best) - 1 : null;

    public static Run Of(Contender contender, Instance instance, Limits limits, BestKnown? known)
    {
        var clock = Stopwatch.StartNew();
        Answer answer = contender.Solve(instance.Problem, limits);
        double seconds = clock.Elapsed.TotalSeconds;
        return new Run(
            instance.Set, instance.Name, contender.Name, answer.Schedule?.Makespan, answer.Proven, answer.Bound, seconds, known, FaultOf(instance.Problem, answer, known));
    }

    /// <summary>Checks the schedule, and the proof against what others have proven or found.</summary>
    private static string FaultOf(MakespanProblem problem, Answer answer, BestKnown? known)
    {
        if (answer.Schedule is { } schedule && MakespanChecker.Check(problem, schedule) is { IsEmpty: false } wrong)
            return wrong[0];
        if (answer is { Infeasible: true, Schedule: not null })
            return "A schedule is given for a problem said to have none.";
        if (answer.Bound > answer.Schedule?.Makespan)
            return $"The bound {answer.Bound} is above the schedule found.";
        if (known is null)
            return "";
        if (known.Makespan is { } best && (answer.Infeasible || answer.Bound > best))
            return $"A schedule of {best} is known.";
        if (known is { Proven: true } && answer.Schedule?.Makespan is { } found && !(found >= known.Makespan))
            return $"A schedule of {found} is said to exist, which is proven to be impossible.";
        return "";
    }

    public string Line() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Set},{Instance},{Contender},{Makespan},{(Proven ? 1 : 0)},{Bound},{Seconds:F3},{(Known is null ? "" : Known.Makespan?.ToString(CultureInfo.InvariantCulture) ?? "infeasible")},{(Known?.Proven == true ? 1 : 0)},{Fault.Replace(',', ';')}");

    public static Run Parse(string file, int number, string line)
    {
        string[] c = line.Split(',');
        static int? Whole(string text) => text.Length == 0 ? null : int.Parse(text, CultureInfo.InvariantCulture);
        try
        {
            BestKnown? known = c[7] switch { "" => null, "infeasible" => new BestKnown(null, c[8] == "1"), _ => new BestKnown(Whole(c[7]), c[8] == "1") };
            return new Run(c[0], c[1], c[2], Whole(c[3]), c[4] == "1", Whole(c[5]), double.Parse(c[6], CultureInfo.InvariantCulture), known, c[9]);
        }
        catch (Exception e) when (e is FormatException or OverflowException or IndexOutOfRangeException)
        {
            throw new UnreadableInstanceException(file, number, $"this is no line of results ({Head}).");
        }
    }
}
