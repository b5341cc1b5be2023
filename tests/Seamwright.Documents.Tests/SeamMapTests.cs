using CsCheck;
using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Repairs;
using Seamwright.Units;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>The unfolded map keeps its promises for any repair and any sheet.</summary>
public class SeamMapTests
{
    private const int Cases = 120;

    private static readonly Gen<(Repair Repair, double Width, bool Card)> Maps = Gen.Select(Given.Repairs, Given.Widths, Gen.Bool);

    [Fact]
    public void Everything_stays_on_the_sheet() => Maps.Look(Cases, map =>
    {
        var drawing = Drawn(map.Repair, map.Width, map.Card);
        MeasuringCanvas.Of(drawing).AssertInside(drawing);
    });

    [Fact]
    public void No_text_lies_on_another() => Maps.Look(Cases, map => MeasuringCanvas.Of(Drawn(map.Repair, map.Width, map.Card)).AssertTextsApart());

    [Fact]
    public void Seams_are_as_long_on_the_sheet_as_in_the_repair_at_one_scale() => Maps.Look(Cases, map =>
    {
        var layout = Drawn(map.Repair, map.Width, map.Card).Layout;
        foreach (var seam in layout.Seams.Where(seam => seam.Joint.Length > Length.Zero))
            Assert.All(seam.Runs, run => Assert.Equal(seam.Joint.Length.Metres * layout.Scale, run.Length, 6));
    });

    [Fact]
    public void Patches_are_as_large_on_the_sheet_as_in_the_repair_at_the_same_scale() => Maps.Look(Cases, map =>
    {
        var layout = Drawn(map.Repair, map.Width, map.Card).Layout;
        Assert.All(layout.Patches, patch => Assert.Equal(patch.Area.Area.SquareMetres * layout.Scale * layout.Scale, patch.Patch.Width * patch.Patch.Height, 4));
    });

    [Fact]
    public void Every_place_of_the_repair_is_drawn_once() => Maps.Look(Cases, map =>
    {
        var layout = Drawn(map.Repair, map.Width, map.Card).Layout;
        Assert.Equal(map.Repair.Joints.Select(joint => joint.Id), layout.Seams.Select(seam => seam.Joint.Id));
        Assert.Equal(map.Repair.BareAreas.Select(area => area.Id).Order(), layout.Patches.Select(patch => patch.Area.Id).Order());
        Assert.Equal(map.Repair.Cavities.Select(cavity => cavity.Id).Order(), layout.Cells.Select(cell => cell.Cavity.Id).Order());
    });

    [Fact]
    public void Every_seam_can_be_touched_and_no_other_one_with_it() => Maps.Look(Cases, map =>
    {
        var seams = Drawn(map.Repair, map.Width, map.Card).Layout.Seams;
        double least = map.Card ? 48 : 24;
        Assert.All(seams, seam => Assert.True(seam.Hit.Width >= least && seam.Hit.Height >= least, $"{seam.Joint.Id} {seam.Hit}"));
        for (int i = 0; i < seams.Length; i++)
        {
            for (int j = i + 1; j < seams.Length; j++)
                Assert.False(seams[i].Hit.Overlaps(seams[j].Hit), $"{seams[i].Joint.Id} {seams[i].Hit} and {seams[j].Joint.Id} {seams[j].Hit}");
        }
    });

    [Fact]
    public void The_same_repair_gives_the_same_map()
    {
        var repair = Given.Evening.Repair;

        Assert.Equal(SvgCanvas.File(Drawn(repair, 900, false)), SvgCanvas.File(Drawn(repair, 900, false)));
    }

    [Fact]
    public void A_stated_edge_outranks_the_guess()
    {
        var repair = Given.Evening.Repair;
        var moved = repair with { Joints = [.. repair.Joints.Select(joint => joint with { Edge = PanelEdge.Rear })] };

        Assert.Contains(Drawn(repair, 900, false).Layout.Seams, seam => seam.Edge != PanelEdge.Rear);
        Assert.All(Drawn(moved, 900, false).Layout.Seams, seam => Assert.Equal(PanelEdge.Rear, seam.Edge));
    }

    [Fact]
    public void A_seam_that_can_be_chosen_is_a_link_to_what_was_given_and_else_none()
    {
        var linked = new SeamMapDrawing(Given.Evening.Repair, null, Given.Words, new MapOptions { Link = id => id.Value == "J2" ? "/seam/J2" : null });

        var links = MeasuringCanvas.Of(linked).Marks.Where(mark => mark.Link is not null).ToList();

        Assert.Equal(["J2", "J2"], links.Select(mark => mark.Name));     // on the map and in the list
        Assert.All(links, mark => Assert.Equal("/seam/J2", mark.Link));
        Assert.DoesNotContain("<a ", SvgCanvas.File(Drawn(Given.Evening.Repair, 900, false)), StringComparison.Ordinal);
    }

    [Theory]      // J1 of the sample: applied 15:40 to 15:52, ready 17:29, latest 16:23
    [InlineData(15, 30, SeamState.Open)]
    [InlineData(15, 52, SeamState.Curing)]
    [InlineData(17, 28, SeamState.Curing)]
    [InlineData(17, 30, SeamState.Ready)]
    public void A_state_follows_the_plan_and_is_said_in_a_word(int hour, int minute, SeamState expected)
    {
        var at = new LocalDateTime(2027, 1, 12, hour, minute).InZoneLeniently(Given.Words.Zone).ToInstant();
        var drawing = new SeamMapDrawing(Given.Evening.Repair, Given.EveningPlan, Given.Words, new MapOptions { At = at });

        var seam = drawing.Layout.Seams[0];

        Assert.Equal(expected, seam.State);
        Assert.EndsWith(Given.Words.Say($"draw.state.{expected}"), seam.Title, StringComparison.Ordinal);
        Assert.Contains(MeasuringCanvas.Of(drawing).Texts, text => text.Text == Given.Words.Say($"draw.state.{expected}"));
    }

    [Fact]
    public void What_should_have_been_applied_is_late()
    {
        var joint = Given.Evening.Repair.Joints[0];
        var plan = Given.EveningPlan.Joints[0];
        var limit = plan.Applied!.Value.Start - Duration.FromMinutes(5);

        Assert.Equal(SeamState.Late, SeamStates.Of(joint, plan with { ApplyBy = limit }, limit + Duration.FromMinutes(1)));
        Assert.Equal(SeamState.Sealed, SeamStates.Of(joint, plan with { Ready = null }, plan.Applied.Value.End));
        Assert.Equal(SeamState.Nothing, SeamStates.Of(joint, plan with { Applied = null }, limit));
    }

    [Fact]
    public void A_sheet_narrower_than_a_phone_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Drawn(Given.Evening.Repair, 300, false));

    private static SeamMapDrawing Drawn(Repair repair, double width, bool card) =>
        new(repair, null, Given.Words, new MapOptions { Width = width, Card = card });
}
