using System.Collections.Immutable;
using CsCheck;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.Sections;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>A cut names every layer it shows, and its names follow the data.</summary>
public class SectionTests
{
    private const int Cases = 120;

    private static readonly Gen<(Joint Joint, double Width)> Cuts = Gen.Select(Gen.Int[0, 1_000_000].Select(seed => Given.Joint(new Random(seed), 1)), Given.Widths);

    private static readonly BuildUp Lap = new()
    {
        Type = JointType.Lap,
        Metals = [Metal.Steel],
        Look = new(Profile.HalfRound, Length.FromMillimetres(10), Length.FromMillimetres(5), true, false),
        Ground = [Film(LayerKind.Epoxy, "ground")],
        Bead = "bead",
        Above = [Film(LayerKind.Surfacer, "first"), Film(LayerKind.Colour, "second"), Film(LayerKind.Clear, "third")],
    };

    [Fact]
    public void Every_part_that_is_drawn_is_named_and_labels_neither_overlap_nor_leave_the_sheet() => Cuts.Look(Cases, cut =>
    {
        var drawing = Drawn(BuildUpOf(cut.Joint), cut.Width);
        var canvas = MeasuringCanvas.Of(drawing);

        Assert.Equal(drawing.Layout.Parts.Length, drawing.Layout.Leaders.Length);
        Assert.All(drawing.Layout.Parts, part => Assert.False(part.Corners.IsEmpty, part.Name));
        canvas.AssertInside(drawing);
        canvas.AssertTextsApart();
    });

    [Fact]
    public void Leaders_do_not_cross() => Cuts.Look(Cases, cut =>
    {
        var leaders = Drawn(BuildUpOf(cut.Joint), cut.Width).Layout.Leaders;
        for (int i = 0; i < leaders.Length; i++)
        {
            for (int j = i + 1; j < leaders.Length; j++)
                Assert.False(Leaders.Cross(leaders[i].Anchor, leaders[i].Elbow, leaders[j].Anchor, leaders[j].Elbow), $"{leaders[i].Lines[0]} and {leaders[j].Lines[0]}");
        }
    });

    [Fact]
    public void A_leader_ends_in_the_part_that_it_names() => Cuts.Look(Cases, cut =>
    {
        var layout = Drawn(BuildUpOf(cut.Joint), cut.Width).Layout;
        foreach (var part in layout.Parts)
        {
            // Long names are wrapped or cut: the first words tell which leader it is. Like parts have like names, so any of them may be met.
            var own = layout.Leaders.Where(leader => part.Name.StartsWith(leader.Lines[0].TrimEnd('…'), StringComparison.Ordinal));
            Assert.Contains(own, leader => Inside(part.Corners, leader.Anchor));
        }
    });

    [Theory]
    [InlineData(JointType.Lap, "upper sheet", "lower sheet")]
    [InlineData(JointType.Coach, "one panel", "other panel")]
    [InlineData(JointType.Butt, "one panel", "other panel", "backing or sleeve")]
    [InlineData(JointType.Hem, "inner panel", "outer skin")]
    [InlineData(JointType.Sandwich, "upper sheet", "middle sheet", "lower sheet")]
    [InlineData(JointType.Fastener, "upper sheet", "lower sheet", "fastener")]
    [InlineData(JointType.SkinToBar, "outer skin", "reinforcement bar")]
    public void Another_kind_of_joint_names_other_sheets(JointType type, params string[] sheets)
    {
        var names = Names(Lap with { Type = type }).Where(name => name.Contains("steel", StringComparison.Ordinal) || name == "fastener").Select(name => name.Split(',')[0]);

        Assert.Equal(sheets.Order(), names.Order());
    }

    [Fact]
    public void Another_build_up_names_other_layers()
    {
        Assert.Equal(["bead", "first", "ground", "second", "third"], Layers(Lap));
        Assert.Equal(["bead", "wax"], Layers(Lap with { Ground = [], Above = [Film(LayerKind.Wax, "wax")] }));
        Assert.Equal(["adhesive", "first", "ground", "second", "third"], Layers(Lap with { Bead = null, Between = Film(LayerKind.Adhesive, "adhesive") }));

        static IEnumerable<string> Layers(BuildUp buildUp) => Names(buildUp).Where(name => !name.Contains("steel", StringComparison.Ordinal)).Order();
    }

    [Fact]
    public void Films_lie_on_each_other_in_the_order_applied()
    {
        var layout = Drawn(Lap, 720).Layout;

        double[] tops = [.. new[] { "ground", "first", "second", "third" }.Select(name => layout.Parts.First(part => part.Name == name).Corners.Min(corner => corner.Y))];

        Assert.Equal(tops.OrderDescending(), tops);      // up the sheet is down in Y
    }

    [Fact]
    public void The_bead_is_as_wide_as_its_look_at_the_scale_of_the_cut()
    {
        var layout = Drawn(Lap, 720).Layout;

        Assert.Equal(10 * layout.Scale, layout.Measure!.Value.To.X - layout.Measure.Value.From.X, 6);
    }

    [Fact]
    public void How_much_films_are_exaggerated_is_said_and_true()
    {
        var buildUp = Lap with { Ground = [], Bead = null, Above = [new Film(LayerKind.Surfacer, "film", Length.FromMicrometres(60))] };
        var drawing = Drawn(buildUp, 720);
        var film = drawing.Layout.Parts.First(part => part.Name == "film");

        // On the level left end of the upper sheet the film is as thick as anywhere.
        double left = film.Corners.Min(corner => corner.X);
        var atLeft = film.Corners.Where(corner => corner.X < left + 0.3).Select(corner => corner.Y).ToList();
        double thick = atLeft.Max() - atLeft.Min();

        Assert.Equal(0.060 * drawing.Layout.Scale * drawing.Layout.Exaggerations.Single(), thick, 1);
        Assert.Contains(MeasuringCanvas.Of(drawing).Texts, text => text.Text.Contains($"about {drawing.Layout.Exaggerations.Single()} times", StringComparison.Ordinal));
    }

    [Fact]
    public void A_planned_seam_shows_its_primer_its_sealer_and_what_comes_over_it()
    {
        var input = Given.Evening;
        var buildUps = new BuildUps(input.Repair, input.Sheets, Given.EveningPlan, Given.Words);

        var wheelhouse = buildUps.Of(input.Repair.Joints[0]);

        Assert.Contains("P-EP", wheelhouse.Ground.Single().Name, StringComparison.Ordinal);
        Assert.StartsWith("MSS,", wheelhouse.Bead, StringComparison.Ordinal);
        Assert.Equal([LayerKind.StoneChip, LayerKind.Colour, LayerKind.Clear], wheelhouse.Above.Select(film => film.Kind));
    }

    [Fact]
    public void Bare_metal_gets_primer_and_a_factory_edge_without_seam_gets_nothing_new()
    {
        var input = Given.Evening;
        var buildUps = new BuildUps(input.Repair, input.Sheets, null, Given.Words);
        var joint = input.Repair.Joints[1] with { Surface = new(SurfaceKind.BareSteel, null, null) };
        var bare = joint with { Look = new(Profile.None, Length.Zero, Length.Zero, false, false) };

        Assert.Equal(LayerKind.Epoxy, buildUps.Of(joint).Ground.Single().Kind);
        Assert.Null(buildUps.Of(bare).Bead);
        Assert.Empty(buildUps.Of(bare).Ground);
    }

    private static Film Film(LayerKind kind, string name) => new(kind, name, FilmThickness.Of(kind));

    private static BuildUp BuildUpOf(Joint joint) => new BuildUps(Given.Evening.Repair with { Joints = [joint] }, Given.Evening.Sheets, null, Given.Words).Of(joint);

    private static SectionDrawing Drawn(BuildUp buildUp, double width) => new("J1 seam", buildUp, Given.Words, width);

    private static IEnumerable<string> Names(BuildUp buildUp)
    {
        var drawing = Drawn(buildUp, 900);
        Assert.Equal(drawing.Layout.Parts.Select(part => part.Name).Order(), drawing.Layout.Leaders.Select(leader => string.Join(' ', leader.Lines)).Order());
        return drawing.Layout.Parts.Select(part => part.Name);
    }

    private static bool Inside(ImmutableArray<Spot> corners, Spot spot)
    {
        bool inside = false;
        for (int i = 0, j = corners.Length - 1; i < corners.Length; j = i++)
        {
            if (corners[i].Y > spot.Y != corners[j].Y > spot.Y
                && spot.X < (corners[j].X - corners[i].X) * (spot.Y - corners[i].Y) / (corners[j].Y - corners[i].Y) + corners[i].X)
            {
                inside = !inside;
            }
        }
        return inside;
    }
}
