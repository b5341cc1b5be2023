using System.Globalization;
using System.Xml.Linq;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Documents.Sections;
using Seamwright.Documents.Timelines;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>What the SVG writer promises, and drawings kept as files.</summary>
public class SvgTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Kept => ["map", "map-phone", "section", "timeline"];

    [Theory]
    [MemberData(nameof(Kept))]
    public void A_drawing_is_what_it_was(string name)
    {
        string file = Given.Beside($"{name}.verified.svg");
        string svg = SvgCanvas.File(Drawn(name));
        if (Environment.GetEnvironmentVariable("SEAMWRIGHT_ACCEPT") == "1")
            File.WriteAllText(file, svg);

        Assert.Equal(File.ReadAllText(file).ReplaceLineEndings("\n"), svg);
    }

    [Theory]
    [MemberData(nameof(Kept))]
    public void A_drawing_is_an_image_with_a_text_and_a_title_on_every_mark(string name)
    {
        var root = XDocument.Parse(SvgCanvas.File(Drawn(name))).Root!;

        Assert.Equal("img", root.Attribute("role")!.Value);
        Assert.False(string.IsNullOrWhiteSpace(root.Attribute("aria-label")!.Value));
        Assert.NotEmpty(root.Descendants(Svg + "g"));
        Assert.All(root.Descendants(Svg + "g"), mark => Assert.False(string.IsNullOrWhiteSpace(mark.Element(Svg + "title")?.Value)));
    }

    [Theory]
    [MemberData(nameof(Kept))]
    public void Looks_are_classes_of_the_table_and_never_colours_in_place(string name)
    {
        var root = XDocument.Parse(SvgCanvas.File(Drawn(name))).Root!;
        string[] inline = ["fill", "stroke", "style", "font-size", "opacity"];
        var known = Styles.All.Select(entry => entry.Class).ToHashSet();

        Assert.All(root.Descendants().Attributes(), attribute => Assert.DoesNotContain(attribute.Name.LocalName, inline));
        Assert.All(MeasuringCanvas.Of(Drawn(name)).Classes, look => Assert.Contains(look, known));
    }

    [Fact]
    public void A_drawing_is_the_same_whatever_culture_the_machine_has()
    {
        string here = SvgCanvas.File(Drawn("map"));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-AT");
            Assert.Equal(here, SvgCanvas.File(Drawn("map")));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Names_are_shown_as_they_were_written_and_never_become_markup()
    {
        const string name = "\"inner\" & <script>alert(1)</script>";
        var repair = Given.Evening.Repair;
        repair = repair with { Joints = [repair.Joints[0] with { Name = name }], Name = "a\u0001b\ud800" };

        string svg = SvgCanvas.File(new SeamMapDrawing(repair, null, Given.Words, new MapOptions { Width = 1280, Link = _ => "?a=1&b=\"<" }));
        var root = XDocument.Parse(svg).Root!;

        Assert.DoesNotContain("<script", svg, StringComparison.Ordinal);
        Assert.Contains(root.Descendants(Svg + "text"), text => text.Value == name);
        Assert.Contains(root.Descendants(Svg + "text"), text => text.Value == "a\ufffdb\ufffd");
        Assert.All(root.Descendants(Svg + "a"), link => Assert.Equal("?a=1&b=\"<", link.Attribute("href")!.Value));
        Assert.Equal("group", root.Attribute("role")!.Value);       // an image would hide its links
    }

    [Fact]
    public void A_file_carries_its_own_colours_for_paper_and_for_the_dark()
    {
        string file = SvgCanvas.File(Drawn("map"));

        Assert.Contains(Palette.Of(Ink.Paper).Light, file, StringComparison.Ordinal);
        Assert.Contains("prefers-color-scheme:dark", file, StringComparison.Ordinal);
        Assert.Contains(Palette.Of(Ink.Paper).Dark, file, StringComparison.Ordinal);
        Assert.DoesNotContain("var(", file, StringComparison.Ordinal);      // viewers without custom properties show it too
        Assert.DoesNotContain("<style", SvgCanvas.Element(Drawn("map")), StringComparison.Ordinal);
    }

    [Fact]
    public void The_style_sheet_of_a_page_knows_every_class_and_every_shade()
    {
        string css = StyleSheet.ForPage();

        Assert.All(Styles.All, entry => Assert.Contains($".drawing .{entry.Class}{{", css, StringComparison.Ordinal));
        Assert.All(Enum.GetValues<Ink>().Where(ink => ink != Ink.None), ink => Assert.Contains(Palette.Of(ink).Dark, css, StringComparison.Ordinal));
    }

    private static IDrawing Drawn(string name)
    {
        var input = Given.Evening;
        var plan = Given.EveningPlan;
        var at = plan.Joints[0].Applied!.Value.End;
        return name switch
        {
            "map" => new SeamMapDrawing(input.Repair, plan, Given.Words, new MapOptions { At = at }),
            "map-phone" => new SeamMapDrawing(input.Repair, plan, Given.WordsIn(Shops.UnitSystem.UsCustomary), new MapOptions { At = at, Width = 344, Card = true }),
            "section" => new SectionDrawing("J2 roof ditch", new BuildUps(input.Repair, input.Sheets, plan, Given.Words).Of(input.Repair.Joints[1]), Given.Words, 640),
            "timeline" => new TimelineDrawing(input, plan, Given.Words),
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No such drawing."),
        };
    }
}
