using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.EndToEnd.Tests.Printing;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Seamwright.Work;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

/// <summary><c>seamwright draw</c> as a shop calls it; the plan is the one written by hand.</summary>
public partial class DrawCommandTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    [Fact]
    public void It_writes_every_drawing_and_a_page_whose_links_all_lead_somewhere()
    {
        using var folder = new Folder();

        var run = Run(Sample.Plan, "draw", Example("evening-slot"), "--out", folder.At("new/drawings"));

        Assert.Equal(0, run.Code);
        Assert.Empty(run.Error);
        Assert.Contains("index.html", run.Output, StringComparison.Ordinal);
        string[] files = [.. Directory.GetFiles(folder.At("new/drawings")).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal)];
        Assert.Superset(new HashSet<string> { "air.svg", "index.html", "map.svg", "section-J1.svg", "section-J2.svg", "section-J3.svg", "section-J4.svg", "timeline.svg" }, files.ToHashSet());
        string page = File.ReadAllText(folder.At("new/drawings/index.html"));
        string[] anchors = [.. Anchor().Matches(page).Select(match => match.Groups[1].Value)];
        Assert.NotEmpty(anchors);
        Assert.All(anchors, anchor => Assert.Contains($"id=\"{anchor}\"", page, StringComparison.Ordinal));
        foreach (string file in files.Where(file => file.EndsWith(".svg", StringComparison.Ordinal)))
        {
            var links = XDocument.Load(folder.At($"new/drawings/{file}")).Descendants(Svg + "a").Select(link => link.Attribute("href")!.Value);
            Assert.All(links, link => Assert.Contains(link, files));
        }
    }

    [Fact]
    public void The_page_loads_nothing_from_elsewhere_and_says_whose_word_comes_first()
    {
        using var folder = new Folder();
        Run(Sample.Plan, "draw", Example("evening-slot"), "--out", folder.At("d"));

        string page = File.ReadAllText(folder.At("d/index.html"));

        Assert.DoesNotMatch(@"(src|href)=""(?!#)", page);
        Assert.DoesNotContain("url(", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Contains("procedure", page, StringComparison.Ordinal);
        Assert.Equal(Sample.Plan.Steps.Length, Regex.Count(page, "<td class=\"clock\">"));
    }

    [Fact]
    public void The_states_on_the_map_are_those_of_the_moment_asked_for()
    {
        using var folder = new Folder();
        Run(Sample.Plan, "draw", Example("evening-slot"), "--out", folder.At("then"), "--at", "2027-01-12 16:00");
        Run(Sample.Plan, "draw", Example("evening-slot"), "--out", folder.At("now"));

        Assert.Contains("seam--curing", File.ReadAllText(folder.At("then/map.svg")), StringComparison.Ordinal);
        Assert.DoesNotContain("seam--curing", File.ReadAllText(folder.At("now/map.svg")), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_plan_map_and_sections_are_drawn_all_the_same()
    {
        using var folder = new Folder();

        var run = Run(null, "draw", Example("evening-slot"), "--out", folder.At("d"));

        Assert.Equal(1, run.Code);
        Assert.Contains("No plan is possible", run.Error, StringComparison.Ordinal);
        Assert.True(File.Exists(folder.At("d/section-J4.svg")));
        Assert.False(File.Exists(folder.At("d/timeline.svg")));
    }

    [Fact]
    public void Wrong_use_ends_with_2_and_writes_nothing()
    {
        using var folder = new Folder();
        folder.Write("taken", "a file where the folder should be");
        string file = folder.At("taken");

        Assert.Equal(2, Run(Sample.Plan, "draw", Example("evening-slot")).Code);
        Assert.Equal(2, Run(Sample.Plan, "draw", "no-such-repair", "--out", folder.At("d")).Code);
        Assert.Equal(2, Run(Sample.Plan, "draw", Example("evening-slot"), "--out", folder.At("d"), "--at", "noon").Code);
        Assert.Equal(2, Run(Sample.Plan, "draw", Example("evening-slot"), "--out", file).Code);
        Assert.False(Directory.Exists(folder.At("d")));
        Assert.Equal("a file where the folder should be", File.ReadAllText(file));
    }

    private static string Example(string name) => Path.Combine(Repository.Examples, name);

    private static (int Code, string Output, string Error) Run(Plan? plan, params string[] arguments)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        using var raw = new MemoryStream();
        int code = new CommandLine(new Terminal(output, error, Screen.File, () => raw), (_, _) => new PlanAnswer { Recommended = plan }).Run(arguments);
        return (code, output + Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }

    [GeneratedRegex("href=\"#([^\"]+)\"")]
    private static partial Regex Anchor();
}
