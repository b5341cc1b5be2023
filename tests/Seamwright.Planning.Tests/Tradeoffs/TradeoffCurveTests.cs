using CsCheck;
using NodaTime;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Planning.Tradeoffs;
using Seamwright.Scheduling;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Tradeoffs;

/// <summary>The curve of small random repairs against a scan over every bound, and what must hold of any curve.</summary>
public sealed class TradeoffCurveTests
{
    private static readonly PlanOptions Options = new() { Deterministic = true };

    [Fact]
    public void The_curve_is_what_a_scan_over_the_bounds_finds() => Curves(6, (input, curve) =>
    {
        // One model of all slots, one goal, no start: another way to the same question "what is the least spending, ready by then?".
        var planning = new PlanningCase(input);
        for (int i = 0; i < curve.Points.Length; i++)
        {
            var plan = curve.Points[i].Plan;
            int ready = Grid(planning.Time.Ceiling(plan.ReadyForPaint));
            Assert.Equal(plan.Cost.Spent.Rounded.Amount, LeastSpending(planning, ready));
            decimal? sooner = LeastSpending(planning, ready - PlanTime.Grid);
            Assert.Equal(i + 1 < curve.Points.Length ? curve.Points[i + 1].Plan.Cost.Spent.Rounded.Amount : null, sooner);
        }
    });

    [Fact]
    public void No_point_is_as_early_and_as_cheap_as_another() => Curves(10, (_, curve) =>
    {
        foreach (var (cheaper, earlier) in curve.Points.Zip(curve.Points.Skip(1)))
        {
            Assert.True(earlier.Plan.ReadyForPaint < cheaper.Plan.ReadyForPaint);
            Assert.True(earlier.Plan.Cost.Spent.Rounded > cheaper.Plan.Cost.Spent.Rounded);
            Assert.Same(cheaper.Plan, earlier.FromBefore!.Before);
        }
        Assert.Equal(curve.Points.Length, curve.Points.Select(point => point.Plan.Id).Distinct().Count());
    });

    [Fact]
    public void Every_point_passes_the_checker_and_nothing_planned_otherwise_beats_it() => Curves(6, (input, curve) =>
    {
        Assert.All(curve.Points, point => Assert.Equal("", PlanText.Against(input, point.Plan)));
        var answer = RepairPlanner.Answer(input, Options);
        foreach (var other in new[] { answer.Recommended, answer.Cheapest, answer.Fastest }.OfType<Plan>())
        {
            // On the grid of five minutes, on which the search counts.
            Assert.DoesNotContain(curve.Points, point => other.Cost.Spent.Rounded < point.Plan.Cost.Spent.Rounded && other.ReadyForPaint <= point.Plan.ReadyForPaint);
            Assert.Contains(curve.Points, point => point.Plan.Cost.Spent.Rounded <= other.Cost.Spent.Rounded && point.Plan.ReadyForPaint - other.ReadyForPaint < Duration.FromMinutes(PlanTime.Grid));
        }
    });

    [Fact]
    public void The_bonded_apron_is_ready_sooner_for_a_lamp_and_says_so()
    {
        var curve = CurvePlanner.Answer(Examples.Read("aluminium-apron"), Options);

        Assert.True(curve.IsExact);
        Assert.Equal(0, curve.RecommendedAt);
        Assert.Contains(curve.Points.Skip(1), point => point.FromBefore!.NewlyWarmed.Any(place => place.Value == "B1"));
    }

    [Fact]
    public void Without_a_plan_there_is_no_curve_but_a_conflict()
    {
        var curve = CurvePlanner.Answer(Examples.Read("no-plan"), Options);

        Assert.Empty(curve.Points);
        Assert.NotEmpty(curve.Conflicts);
    }

    private static void Curves(int rounds, Action<RepairInput, TradeoffCurve> holds) => Rounds.Look(Gen.Int[0, 1_000_000], rounds, seed =>
    {
        var input = RandomRepairs.Small(seed);
        var curve = CurvePlanner.Answer(input, Options);
        if (curve.Points.IsEmpty)
            return;
        Assert.True(curve.IsExact, $"{input.Repair.Id}: {string.Join(", ", curve.Points.Select(point => (point.Plan.Cost.Spent.Rounded.Amount, point.Plan.LowerBound.Rounded.Amount)))}");
        holds(input, curve);
    });

    private static decimal? LeastSpending(PlanningCase planning, int readyBy)
    {
        if (readyBy < 0 || ProjectBuilder.Build(planning, new Variation { SpendingOnly = true, TimesReady = true, ReadyAtMost = readyBy, LampCuresSeals = planning.Shop.Lamps is not null }) is not { } project)
            return null;
        var outcome = ProjectSolver.Solve(project.Project, new SolveOptions { Deterministic = true, TimeLimit = TimeSpan.FromSeconds(30) });
        Assert.True(outcome is Outcome.Optimal or Outcome.Infeasible);
        return outcome.Plan is { } schedule ? SolverMoney.Back(schedule.Cost, planning.Shop.Currency).Rounded.Amount : null;
    }

    private static int Grid(int minute) => (minute + PlanTime.Grid - 1) / PlanTime.Grid * PlanTime.Grid;
}
