using NodaTime;
using NodaTime.Text;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Scenarios;

/// <summary>Short ways to what an answer says, and the assertions that many scenarios share.</summary>
internal static class Answers
{
    /// <summary>A time as the shop's clock shows it: <c>2027-01-12T15:10</c>.</summary>
    public static Instant At(string local) =>
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(local).Value
            .InZoneStrictly(DateTimeZoneProviders.Tzdb["Europe/Vienna"]).ToInstant();

    public static JointPlan Joint(this Plan plan, string joint) => plan.Joints.Single(found => found.Joint.Value == joint);

    public static string? MaterialOn(this Plan plan, string joint) => plan.Joint(joint).Material?.Value;

    /// <summary>What choosing a material on a joint would mean.</summary>
    public static MaterialAnswer On(this PlanAnswer answer, string joint, string material)
    {
        Assert.NotNull(answer.Recommended);
        return answer.Recommended.Joint(joint).Answers.Single(found => found.Material.Value == material);
    }

    /// <summary>The reason with a key among the verdicts, also one quoted inside another, or none.</summary>
    public static Reason? Says(this MaterialAnswer answer, string key) => answer.Verdicts.Select(verdict => verdict.Reason).Saying(key);

    /// <summary>The reason with a key, also one quoted inside another, or none.</summary>
    public static Reason? Saying(this IEnumerable<Reason> reasons, string key) =>
        reasons.Select(reason => reason.Key == key ? reason : reason.Facts.OfType<Reason>().Saying(key)).FirstOrDefault(found => found is not null);

    /// <summary>The material is refused on the joint, and this is among the reasons.</summary>
    public static Reason Refused(this PlanAnswer answer, string joint, string material, string key)
    {
        var found = answer.On(joint, material);
        Assert.Equal(VerdictKind.Refused, found.Overall);
        Assert.Null(found.Consequence);
        var verdict = found.Verdicts.FirstOrDefault(verdict => verdict.Reason.Key == key);
        Assert.True(verdict is not null, $"{material} on {joint}: no {key} among {string.Join(", ", found.Verdicts.Where(v => v.Kind > VerdictKind.Fine).Select(v => v.Reason.Key))}");
        Assert.Equal(VerdictKind.Refused, verdict.Kind);
        return verdict.Reason;
    }

    /// <summary>The material may go on the joint, possibly with advice.</summary>
    public static MaterialAnswer Allowed(this PlanAnswer answer, string joint, string material)
    {
        var found = answer.On(joint, material);
        Assert.True(found.Overall <= VerdictKind.Advice, $"{material} on {joint}: {string.Join(", ", found.Verdicts.Where(v => v.Kind == found.Overall).Select(v => v.Reason.Key))}");
        return found;
    }

    /// <summary>The one fact of a type.</summary>
    public static T Fact<T>(this Reason reason) => reason.Facts.OfType<T>().Single();

    public static IEnumerable<Step> Steps(this Plan plan, StepKind kind, string? place = null) =>
        plan.Steps.Where(step => step.Kind == kind && (place is null || step.Places.Contains(new PlaceId(place))));

    public static Step Step(this Plan plan, StepKind kind, string? place = null) => Assert.Single(plan.Steps(kind, place));

    /// <summary>From the end of work to the time from which paint may go on.</summary>
    public static double CureMinutes(this Plan plan, string joint) =>
        plan.Joint(joint) is { Ready: { } ready, Applied: { } applied } ? (ready - applied.End).TotalMinutes : throw new InvalidOperationException($"{joint} does not cure.");

    public static double Minutes(this Step step) => (step.End - step.Start).TotalMinutes;

    public static void Near(double expected, Volume actual, double within = 0.6) => Assert.InRange(actual.Millilitres, expected - within, expected + within);

    public static void Near(double expected, double actual, double within) => Assert.InRange(actual, expected - within, expected + within);

    public static void Between(string from, string to, Instant? actual)
    {
        Assert.NotNull(actual);
        Assert.InRange(actual.Value, At(from), At(to));
    }

    public static bool Uses(this Plan plan, string pack) => plan.PackUses.Any(use => use.Pack == new PackId(pack));

    /// <summary>Names of all facts that together leave no plan.</summary>
    public static string[] ConflictFacts(this PlanAnswer answer)
    {
        Assert.Null(answer.Recommended);
        return [.. answer.Conflicts.SelectMany(conflict => conflict.Facts).Select(fact => fact.Id)];
    }
}
