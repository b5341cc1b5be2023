using System.Text.Json;
using System.Text.RegularExpressions;
using Seamwright.Suitability;
using Xunit;
using static Seamwright.SuitabilityTests.Invented;

namespace Seamwright.SuitabilityTests;

/// <summary>The rules of the house about rules: each has a name, a source, a test, and every reason a sentence.</summary>
public partial class RuleBookTests
{
    private static readonly DirectoryInfo Root = FindRoot();

    private static IEnumerable<(string Id, string Source)> AllRules() =>
    [
        .. SuitabilityRules.All.Select(rule => (rule.Id, rule.Source)),
        .. PrimerRules.All.Select(rule => (rule.Id, rule.Source)),
        .. ClimateRules.All.Select(rule => (rule.Id, rule.Source)),
        .. PackRules.All.Select(rule => (rule.Id, rule.Source)),
        .. PersonRules.All.Select(rule => (rule.Id, rule.Source)),
    ];

    [Fact]
    public void Each_rule_has_a_name_of_its_own_and_a_source()
    {
        var rules = AllRules().ToList();

        Assert.Equal(rules.Count, rules.Select(rule => rule.Id).Distinct().Count());
        Assert.All(rules, rule => Assert.Matches("^[a-z-]+\\.[a-z-]+$", rule.Id));
        Assert.All(rules, rule => Assert.False(string.IsNullOrWhiteSpace(rule.Source)));
    }

    [Fact]
    public void Each_rule_has_a_test_that_names_it()
    {
        string tests = string.Concat(Sources("tests/Seamwright.Core.Tests/Suitability").Select(File.ReadAllText));

        Assert.All(AllRules(), rule => Assert.Contains($"\"{rule.Id}\"", tests));
    }

    [Theory]
    [InlineData("suitability", "src/Seamwright.Core/Suitability")]
    [InlineData("quantities", "src/Seamwright.Core/Quantities")]
    public void Each_reason_has_a_sentence_and_each_sentence_a_reason(string texts, string code)
    {
        var sentences = Sentences(texts);
        var keys = Sources(code).SelectMany(file => Key().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value)).ToHashSet();

        Assert.Empty(keys.Except(sentences.Keys).Order());
        Assert.Empty(sentences.Keys.Except(keys).Order());
    }

    [Theory]
    [InlineData("suitability")]
    [InlineData("quantities")]
    public void Sentences_are_one_plain_sentence(string texts) =>
        Assert.All(Sentences(texts), entry =>
        {
            Assert.EndsWith(".", entry.Value);
            Assert.Matches("^[A-Z0-9{]", entry.Value);
            Assert.DoesNotContain(". ", entry.Value);
            Assert.DoesNotMatch("(?i)please|invalid|oops|error", entry.Value);
        });

    [Fact]
    public void Sentences_use_every_fact_that_the_rules_give_them()
    {
        var sentences = Sentences("suitability");
        var joints = new[] { PlainLap, PlainLap with { Drains = 3, Masked = true, Depth = Mm(4) }, PlainLap with { Surface = Bare(Materials.SurfaceKind.BareSteel), Position = Repairs.Position.Overhead } };

        foreach (var joint in joints)
        {
            foreach (var sheet in Sheets.Values)
            {
                foreach (var reason in SuitabilityRules.Judge(On(joint, sheet)).Select(verdict => verdict.Reason))
                {
                    var places = Place().Matches(sentences[reason.Key]).Select(match => int.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture));
                    Assert.All(places, place => Assert.InRange(place, 0, reason.Facts.Length - 1));
                }
            }
        }
    }

    [Fact]
    public void Every_judgement_is_complete_and_in_a_fixed_order()
    {
        var ids = SuitabilityRules.All.Select(rule => rule.Id).ToList();

        foreach (var sheet in Sheets.Values)
        {
            var verdicts = SuitabilityRules.Judge(On(PlainLap, sheet));
            Assert.Equal(ids, verdicts.Select(verdict => verdict.RuleId));
            Assert.All(verdicts, verdict => Assert.False(string.IsNullOrWhiteSpace(verdict.Source)));
        }
    }

    [Fact]
    public void The_worst_verdict_decides_and_an_empty_list_is_fine()
    {
        var verdicts = SuitabilityRules.Judge(On(PlainLap with { Masked = true }, MS1));

        Assert.Equal(VerdictKind.Refused, Verdicts.Overall(verdicts));
        Assert.Equal(["handling.masked-or-rubbed"], Verdicts.Deciding(verdicts).Select(verdict => verdict.RuleId));
        Assert.Equal(VerdictKind.Fine, Verdicts.Overall([]));
    }

    [Fact]
    public void Cautions_begin_with_what_comes_first_and_follow_the_hazards()
    {
        Assert.Equal(["caution-first-things", "caution-epoxy"], Cautions.For(E2S).Select(caution => caution.Key));
        Assert.Equal(5, Cautions.For(PU1).Length);
        Assert.All(Enum.GetValues<Materials.Hazard>(), hazard => Assert.True(Cautions.For(MS1 with { Hazards = [hazard] }).Length > 1));
    }

    private static Dictionary<string, string> Sentences(string name) =>
        JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllText(Path.Combine(Root.FullName, "src/Seamwright/Texts/en", name + ".json")))!;

    private static IEnumerable<string> Sources(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root.FullName, folder), "*.cs", SearchOption.AllDirectories);

    private static DirectoryInfo FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Seamwright.slnx")))
            folder = folder.Parent ?? throw new InvalidOperationException("The tests run inside the repository.");
        return folder;
    }

    /// <summary>Keys are the only string literals written with hyphens and nothing else.</summary>
    [GeneratedRegex("\"([a-z]+(?:-[a-z]+)+)\"")]
    private static partial Regex Key();

    [GeneratedRegex("\\{(\\d+)\\}")]
    private static partial Regex Place();
}
