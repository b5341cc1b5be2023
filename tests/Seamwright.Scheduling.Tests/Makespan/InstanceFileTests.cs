using Seamwright.Scheduling.Benchmarks.Contenders;
using Seamwright.Scheduling.Benchmarks.Instances;
using Seamwright.Scheduling.Benchmarks.Results;
using Xunit;

namespace Seamwright.Scheduling.Tests.Makespan;

/// <summary>The benchmark's readers, on tiny instances written by hand.</summary>
public class InstanceFileTests
{
    private const string SingleMode = """
        ************************************************************************
        file with basedata            : hand.bas
        ************************************************************************
        projects                      :  1
        jobs (incl. supersource/sink ):  4
        horizon                       :  7
        RESOURCES
          - renewable                 :  1   R
          - nonrenewable              :  0   N
          - doubly constrained        :  0   D
        ************************************************************************
        PROJECT INFORMATION:
        pronr.  #jobs rel.date duedate tardcost  MPM-Time
            1      2      0        7        0        4
        ************************************************************************
        PRECEDENCE RELATIONS:
        jobnr.    #modes  #successors   successors
           1        1          2           2   3
           2        1          1           4
           3        1          1           4
           4        1          0
        ************************************************************************
        REQUESTS/DURATIONS:
        jobnr. mode duration  R 1
        ------------------------------------------------------------------------
          1      1     0       0
          2      1     3       2
          3      1     4       2
          4      1     0       0
        ************************************************************************
        RESOURCEAVAILABILITIES:
          R 1
            3
        ************************************************************************
        """;

    private const string MultiMode = """
        jobs  (incl. supersource/sink ):	3
        RESOURCES
        - renewable                 : 1 R
        - nonrenewable              : 1 N
        - doubly constrained        : 0 D
        ************************************************************************
        PRECEDENCE RELATIONS:
        jobnr.    #modes  #successors   successors
        1	1	1	2
        2	2	1	3
        3	1	0
        ************************************************************************
        REQUESTS/DURATIONS
        jobnr.	mode	dur	R1	N1
        ------------------------------------------------------------------------
        1	1	0	0	0
        2	1	2	1	9
        	2	5	1	4
        3	1	0	0	0
        ************************************************************************

         RESOURCE AVAILABILITIES
        	R 1	N 1
        	1	8

        ************************************************************************
        """;

    private const string TimeLags = """
        2	1	0	0
        0	1	2	1	2	[0]	[0]
        1	1	2	3	2	[2]	[5]
        2	1	2	3	1	[3]	[-6]
        3	1	0
        0	1	0	0
        1	1	2	1
        2	1	3	1
        3	1	0	0
        1
        """;

    [Fact]
    public void A_single_mode_file_gives_jobs_precedences_and_capacities()
    {
        MakespanProblem problem = Instance.Read("hand.sm", SingleMode);

        Assert.Equal([3], problem.Capacities);
        Assert.Equal([0, 3, 4, 0], problem.Activities.Select(a => a.Modes.Single().Duration));
        Assert.Equal(
            [MakespanLag.Precedence(0, 1), MakespanLag.Precedence(0, 2), MakespanLag.Precedence(1, 3), MakespanLag.Precedence(2, 3)], problem.Lags);
    }

    [Fact]
    public void A_multi_mode_file_gives_modes_and_stocks()
    {
        MakespanProblem problem = Instance.Read("hand.txt", MultiMode);

        Assert.Equal([8], problem.Stocks);
        Assert.Equal([2, 5], problem.Activities[1].Modes.Select(m => m.Duration));
        Assert.Equal([9, 4], problem.Activities[1].Modes.Select(m => m.Consumes.Single()));
    }

    [Fact]
    public void A_time_lag_file_gives_lags_from_start_to_start()
    {
        MakespanProblem problem = Instance.Read("hand.SCH", TimeLags.ReplaceLineEndings("\r\n"));

        Assert.Contains(new MakespanLag(1, Edge.Start, 2, 5), problem.Lags);
        Assert.Contains(new MakespanLag(2, Edge.Start, 1, -6), problem.Lags);
        Assert.Equal([1], problem.Capacities);
    }

    // By hand: 2 and 3 need 2 of 3 units each, so one after the other, 3 + 4; the quick mode takes 9 of 8 from stock, so 5;
    // the lag of 5 is longer than the first activity, 5 + 3.
    [Theory]
    [InlineData("hand.sm", SingleMode, 7)]
    [InlineData("hand.txt", MultiMode, 5)]
    [InlineData("hand.sch", TimeLags, 8)]
    public void Every_contender_solves_what_was_read(string file, string text, int shortest)
    {
        var instance = new Instance("hand", file, Instance.Read(file, text));

        var runs = Contender.All.Select(c => Run.Of(c, instance, new Limits(TimeSpan.FromSeconds(30), 2, 1), new BestKnown(shortest, true)));

        Assert.All(runs, run => Assert.Equal((shortest, ""), (run.Makespan, run.Fault)));
    }

    [Theory]
    [InlineData("hand.sm", SingleMode, "           3        1          1           4", "           3        1          2           4", "hand.sm, line 20: job, modes, number of successors and that many successors were expected.")]
    [InlineData("hand.sm", SingleMode, "      2      1     3       2", "      2      1     x       2", "hand.sm, line 27: \"x\" is not a whole number.")]
    [InlineData("hand.sm", SingleMode, "RESOURCEAVAILABILITIES", "", "hand.sm: there is no line with \"AVAILABILITIES\".")]
    [InlineData("hand.sm", SingleMode, "    3\n****", "****", "hand.sm: the file ends before the availabilities.")]
    [InlineData("hand.txt", MultiMode, "\t2\t5\t1\t4", "\t2\t5\t1", "hand.txt, line 18: mode 2 of job 2 with its duration and 2 requests was expected.")]
    [InlineData("hand.txt", MultiMode, ": 0 D", ": 1 D", "hand.txt, line 5: doubly constrained resources are not supported.")]
    [InlineData("hand.sch", TimeLags, "3\t2\t[2]", "3\t9\t[2]", "hand.sch, line 3: there is no activity 9.")]
    [InlineData("hand.sch", TimeLags, "2\t1\t3\t1", "2\t1\t3", "hand.sch, line 8: activity 2, mode 1, a duration and 1 demands of 0 or more were expected.")]
    public void A_bad_file_is_told_in_one_sentence_with_its_line(string file, string text, string good, string bad, string sentence)
    {
        string lines = text.ReplaceLineEndings("\n");
        string trimmed = good.Trim(' ');
        Assert.Contains(trimmed, lines, StringComparison.Ordinal);

        var fault = Assert.Throws<UnreadableInstanceException>(() => Instance.Read(file, lines.Replace(trimmed, bad.Trim(' '), StringComparison.Ordinal)));

        Assert.Equal(sentence, fault.Message);
    }

    [Fact]
    public void Best_known_durations_are_read_with_their_proof()
    {
        string[] lines = ["instance,set,kind,best_known,is_optimal,source", "a.sm,j30,rcpsp,43,1,\"x, y\"", "b.sch,ubo,rcpsp-max,infeasible,1,x"];

        var known = BestKnown.Read("best.csv", lines);

        Assert.Equal(new BestKnown(43, true), known[("j30", "a.sm")]);
        Assert.Equal(new BestKnown(null, true), known[("ubo", "b.sch")]);
        Assert.Equal("best.csv, line 2: instance, set, kind, best known duration or \"infeasible\" and 0 or 1 were expected.",
            Assert.Throws<UnreadableInstanceException>(() => BestKnown.Read("best.csv", ["head", "a,b,c,soon,1,x"])).Message);
    }

    [Fact]
    public void A_result_is_the_same_after_writing_and_reading()
    {
        var run = new Run("j30", "a.sm", "plain", 44, false, 43, 1.5, new BestKnown(43, true), "");

        Assert.Equal(run, Run.Parse("results.csv", 2, run.Line()));
    }
}
