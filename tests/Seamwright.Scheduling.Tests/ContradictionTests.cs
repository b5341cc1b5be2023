using System.Collections.Immutable;
using Xunit;

namespace Seamwright.Scheduling.Tests;

/// <summary>Modes that their own lags forbid are never taken for a first pattern.</summary>
public class ContradictionTests
{
    private static readonly ActivityId Seal = new("seal");
    private static readonly ActivityId Paint = new("paint");
    private static readonly ModeId Slow = new("slow");
    private static readonly ModeId Fast = new("fast");

    [Fact]
    public void A_mode_whose_window_ends_before_it_is_ready_never_starts()
    {
        var closed = Contradictions.Closed(Sealed(slowReady: 5000, slowWindow: 4000));

        Assert.Equal([new Window(-1, 0)], Mode(closed, Slow).Starts);
        Assert.True(Mode(closed, Fast).Starts.IsEmpty);
        // The cheaper mode cannot be meant then.
        Assert.Equal(Fast, CheapestChoices.Of(closed)![Seal].Mode);
    }

    [Fact]
    public void A_mode_that_is_ready_inside_its_window_stays_open_and_a_project_without_contradictions_stays_the_same()
    {
        var project = Sealed(slowReady: 3000, slowWindow: 4000);

        Assert.Same(project, Contradictions.Closed(project));
        Assert.Equal(Slow, CheapestChoices.Of(project)![Seal].Mode);
    }

    [Fact]
    public void One_time_at_which_it_is_ready_inside_its_window_is_enough()
    {
        // Ready after two days on the first days, after half a day later on; the window is a day.
        var project = Sealed(TimeFunction.Of(minute => Math.Max(minute + 720, 6000)), slowWindow: 1440);

        Assert.Same(project, Contradictions.Closed(project));
    }

    private static Mode Mode(Project project, ModeId id) => project.Activities[0].Modes.Single(mode => mode.Id == id);

    private static Project Sealed(int slowReady, int slowWindow) => Sealed(TimeFunction.Shift(slowReady), slowWindow);

    private static Project Sealed(TimeFunction slowReady, int slowWindow) => new()
    {
        Horizon = 10_000,
        StartStep = 5,
        Activities =
        [
            new Activity { Id = Seal, Modes = [new Mode { Id = Slow, Duration = 10, Cost = 100 }, new Mode { Id = Fast, Duration = 10, Cost = 300 }] },
            new Activity { Id = Paint, Modes = [new Mode { Id = new ModeId("at"), Duration = 60 }] },
        ],
        Lags =
        [
            After(LagKind.Minimum, slowReady, Slow),
            After(LagKind.Maximum, TimeFunction.Shift(slowWindow), Slow),
            After(LagKind.Minimum, TimeFunction.Shift(90), Fast),
            After(LagKind.Maximum, TimeFunction.Shift(1440), Fast),
        ],
    };

    private static Lag After(LagKind kind, TimeFunction delay, ModeId mode) => new()
    {
        From = TimePoint.EndOf(Seal),
        To = TimePoint.StartOf(Paint),
        Kind = kind,
        Delay = new Delay.ByTime(delay),
        FromModes = [mode],
    };
}
