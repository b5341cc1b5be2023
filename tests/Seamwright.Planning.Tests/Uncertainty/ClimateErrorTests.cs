using Seamwright.Curing;
using Seamwright.Planning.Tests.Checking;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>Where the climate's error is applied without integrating anew, what that costs is bounded.</summary>
public sealed class ClimateErrorTests
{
    [Theory]
    [InlineData("evening-slot")]
    [InlineData("cold-night")]
    [InlineData("quarter-panel-us")]
    public void The_answer_to_a_wrong_climate_is_near_that_of_integrating_it(string example)
    {
        var cases = ClimateErrors.Measure(Examples.Read(example), climates: 24, seed: 3);

        Assert.True(cases.Count > 500);
        for (int law = 0; law < ClimateErrors.Laws.Length; law++)
        {
            // A step that begins to count in the middle of an hour is averaged over the hour: coarser than the smooth laws.
            bool stepped = ClimateErrors.Laws[law].Law is CureLaw.Stepped;
            var mine = cases.Where(one => one.Law == law).ToList();
            double shift = Math.Sqrt(mine.Average(one => one.Shift * one.Shift));
            double error = Math.Sqrt(mine.Average(one => one.Error * one.Error));
            double bias = mine.Average(one => one.Error);
            Assert.True(shift > 1, $"{ClimateErrors.Laws[law].Name}: climates that change nothing ({shift:F2} min) prove nothing.");
            Assert.True(error < (stepped ? 0.25 : 0.05) * shift, $"{ClimateErrors.Laws[law].Name}: error {error:F2} min of a shift of {shift:F2} min.");
            Assert.True(Math.Abs(bias) < (stepped ? 0.1 : 0.02) * shift, $"{ClimateErrors.Laws[law].Name}: bias {bias:F2} min of a shift of {shift:F2} min.");
        }
    }
}
