using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class PublishedExampleTests
{
    // Job shop of six jobs and six machines by Fisher and Thompson (1963), often called FT06; data and optimum 55 from memory.
    private static readonly (int Machine, int Minutes)[][] Jobs =
    [
        [(2, 1), (0, 3), (1, 6), (3, 7), (5, 3), (4, 6)],
        [(1, 8), (2, 5), (4, 10), (5, 10), (0, 10), (3, 4)],
        [(2, 5), (3, 4), (5, 8), (0, 9), (1, 1), (4, 7)],
        [(1, 5), (0, 5), (2, 5), (3, 3), (4, 8), (5, 9)],
        [(2, 9), (1, 3), (4, 5), (5, 4), (0, 3), (3, 1)],
        [(1, 3), (3, 3), (5, 9), (0, 10), (4, 4), (2, 1)],
    ];

    [Fact]
    public void The_classic_job_shop_of_six_jobs_takes_55()
    {
        var activities = new List<Activity> { Activity("last", Alone("m", 0)) };
        var lags = new List<Lag>();
        for (int j = 0; j < Jobs.Length; j++)
        {
            for (int k = 0; k < Jobs[j].Length; k++)
            {
                activities.Add(Activity($"{j}.{k}", Alone("m", Jobs[j][k].Minutes, needs: $"machine {Jobs[j][k].Machine}")));
                lags.Add(Lag(EndOf($"{j}.{k}"), StartOf(k + 1 < Jobs[j].Length ? $"{j}.{k + 1}" : "last"), 0));
            }
        }

        var project = new Project
        {
            Horizon = 197,      // all one after the other
            StartStep = 1,
            Resources = [.. Enumerable.Range(0, 6).Select(m => Resource($"machine {m}", new Window(0, 197)))],
            Activities = [.. activities],
            Lags = [.. lags],
        };

        Assert.Equal(55, Solved(project, Goals(Goal.Earliest(new ActivityId("last")))).Of("last").Start);
    }
}
