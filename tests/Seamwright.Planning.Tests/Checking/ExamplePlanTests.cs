using Seamwright.Planning.Checking;
using Seamwright.Program.Texts;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Checking;

public sealed class ExamplePlanTests
{
    public static TheoryData<string> Possible => [.. Examples.Possible];

    [Theory, MemberData(nameof(Possible))]
    public void All_three_plans_of_an_example_pass_the_checker(string name)
    {
        var input = Examples.Read(name);
        var answer = Examples.Answer(name);
        var words = Words.For(input);

        foreach (var plan in (Plan?[])[answer.Recommended, answer.Cheapest, answer.Fastest])
        {
            Assert.NotNull(plan);
            Assert.Equal("", string.Join("\n", PlanChecker.Check(input, plan).Select(reason => $"{plan.Aim}: {words.Sentence(reason)}")));
        }
    }
}

/// <summary>Reasons in words, so that a failing test can be read.</summary>
internal static class Words
{
    public static Formatter For(RepairInput input) => new(Sentences.Load("en"), Notation.Of(input.Shop, input.Repair.Now));
}
