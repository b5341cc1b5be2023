using System.Text.RegularExpressions;
using Xunit;

namespace Seamwright.Architecture.Tests;

/// <summary>Documents say what is there.</summary>
public partial class DocumentTests
{
    public static TheoryData<string> Decisions =>
        [.. Directory.EnumerateFiles(Path.Combine(Checkout.Root, "docs/decisions"), "*.md").Order().Select(path => Path.GetFileName(path))];

    [Theory]
    [MemberData(nameof(Decisions))]
    public void A_decision_tells_when_why_what_and_what_follows(string file)
    {
        string text = File.ReadAllText(Path.Combine(Checkout.Root, "docs/decisions", file));

        Assert.Matches(@"^\d{4}-[a-z0-9-]+\.md$", file);
        Assert.Matches(new Regex(@"^- Date: \d{4}-\d{2}-\d{2}$", RegexOptions.Multiline), text);
        Assert.Matches(new Regex(@"^- Status: (accepted|superseded by \[.+\]\(.+\))$", RegexOptions.Multiline), text);
        Assert.All(new[] { "## Context", "## Decision", "## Consequences" }, title => Assert.Contains(title, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Commands_and_files_named_in_the_readme_exist()
    {
        string readme = File.ReadAllText(Path.Combine(Checkout.Root, "README.md"));

        var commands = ScriptCall().Matches(readme).Select(match => match.Groups["script"].Value).Distinct().ToList();
        var arguments = ExamplePath().Matches(readme).Select(match => match.Value).Distinct();
        var links = Link().Matches(readme).Select(match => match.Groups["path"].Value).Where(path => !path.Contains(':', StringComparison.Ordinal));

        Assert.Contains("seamwright", commands);
        Assert.Contains("test", commands);
        Assert.All(commands.Concat(arguments).Concat(links), path => Assert.True(Path.Exists(Path.Combine(Checkout.Root, path)), $"README.md names {path}"));
    }

    [Fact]
    public void Every_dependency_stands_in_the_readme_with_its_version()
    {
        string readme = File.ReadAllText(Path.Combine(Checkout.Root, "README.md"));
        string packages = File.ReadAllText(Path.Combine(Checkout.Root, "Directory.Packages.props"));

        Assert.All(Package().Matches(packages), match =>
            Assert.Contains($"| {match.Groups["name"].Value} | {match.Groups["version"].Value} |", readme, StringComparison.Ordinal));
    }

    [GeneratedRegex(@"(?<![\w/])\./(?<script>[a-z./-]*[a-z])\b")]
    private static partial Regex ScriptCall();

    [GeneratedRegex(@"(?<![\w/])examples/[a-z0-9./-]*[a-z0-9]")]
    private static partial Regex ExamplePath();

    [GeneratedRegex(@"\]\((?<path>[^)#]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"PackageVersion Include=""(?<name>[^""]+)"" Version=""(?<version>[^""]+)""")]
    private static partial Regex Package();
}
