using System.Text.Json;
using CsCheck;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Files;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Files;

public sealed class ReadingTests
{
    [Fact]
    public void The_evening_slot_is_read_with_the_figures_of_its_file()
    {
        var input = RepairReader.Read(Path.Combine(Repository.Examples, "evening-slot")).Input!;

        Assert.Equal(Instant.FromUtc(2027, 1, 12, 14, 10), input.Repair.Now);
        Assert.Equal([Instant.FromUtc(2027, 1, 12, 17, 0), Instant.FromUtc(2027, 1, 13, 12, 0)], input.Repair.PaintSlots);
        var edge = input.Repair.Joints[0];
        Assert.Equal((Position.Overhead, Profile.Sprayed, LayerAbove.StoneChip), (edge.Position, edge.Look.Profile, edge.Above));
        Assert.Equal((1200, 40, 1), (edge.Length.Millimetres, edge.Look.Width.Millimetres, edge.Look.Height.Millimetres));
        Assert.Equal(SurfaceKind.EpoxyPrimer, edge.Surface.Kind);
        Assert.Equal(Instant.FromUtc(2027, 1, 12, 13, 30), edge.Surface.Applied);
        Assert.Equal(7, input.Stock.Packs.Length);
        Assert.Equal(new LocalDate(2026, 12, 23), input.Stock.Packs[4].Opened);
        Assert.Equal([new NozzleStock(1, null)], input.Stock.Nozzles);
        Assert.Equal(240m, input.Shop.TimeValue.BayDay.Amount);
        Assert.IsType<HeatedDayClimate>(input.Climate);
        Assert.Equal(28, input.Climate.At(input.Repair.Now).Humidity.Percent, 6);
    }

    [Fact]
    public void Milestones_get_the_law_of_their_class_and_keep_what_they_rest_on()
    {
        var sheets = RepairReader.Read(Path.Combine(Repository.Examples, "evening-slot")).Input!.Sheets.ToDictionary(sheet => sheet.Id.Value);

        var sealer = sheets["E2S"].Milestone(MilestoneKind.Paint)!;
        Assert.Equal(55, Assert.IsType<CureLaw.TwoPart>(sealer.Law).ActivationEnergy.KilojoulesPerMole, 9);
        Assert.Equal(90, sealer.Needed.Minutes, 9);
        Assert.False(sealer.Evidence.EnergyIsDefault);
        Assert.Equal((15, 45), ((int)Math.Round(sealer.Evidence.Coldest.Celsius), (int)Math.Round(sealer.Evidence.Warmest.Celsius)));

        Assert.IsType<CureLaw.Moisture>(sheets["PU1"].Milestone(MilestoneKind.Paint)!.Law);
        Assert.Equal(50, Assert.IsType<CureLaw.TwoPart>(sheets["P-EP"].Milestone(MilestoneKind.WorkEnd)!.Law).ActivationEnergy.KilojoulesPerMole, 9);
        Assert.Equal(30, Assert.IsType<CureLaw.Drying>(sheets["P-EP"].Milestone(MilestoneKind.NextLayer)!.Law).ActivationEnergy.KilojoulesPerMole, 9);
        Assert.IsType<CureLaw.Clock>(sheets["TP"].Milestone(MilestoneKind.Paint)!.Law);

        // One temperature and no energy on the sheet: the class default is used, and said to be one.
        Assert.True(sheets["RB1"].Milestone(MilestoneKind.Paint)!.Evidence.EnergyIsDefault);

        // Three temperatures: fitted. The points fall by a factor of about 1.75 from 15 to 23 °C, which is some 50 kJ/mol.
        var fitted = Assert.IsType<CureLaw.TwoPart>(sheets["MA2"].Milestone(MilestoneKind.Paint)!.Law);
        Assert.InRange(fitted.ActivationEnergy.KilojoulesPerMole, 45, 55);

        // 24 h from 15.6 °C and 30 min from 38 °C: 48 times as fast.
        var steps = Assert.IsType<CureLaw.Stepped>(sheets["SCW"].Milestone(MilestoneKind.Full)!.Law).Steps;
        Assert.Equal([1, 48], steps.Select(step => step.Rate));
    }

    [Fact]
    public void What_is_left_out_has_the_documented_default()
    {
        using var folder = new Folder();

        var input = folder.Read().Input!;

        var heads = input.Repair.Joints[1];
        Assert.Equal((3, Position.Level, Stage.BeforePaint, LayerAbove.Paint), (heads.Count, heads.Position, heads.Stage, heads.Above));
        Assert.Equal(SurfaceKind.BareSteel, heads.Surface.Kind);
        Assert.Equal(60, input.Shop.BakeTemperature.Celsius, 9);
        Assert.Equal(Duration.FromSeconds(30), input.Shop.Times.PerMetre[Profile.Dab]);
        Assert.Equal(Duration.FromMinutes(15), input.Repair.Bonds[0].CleanTime);
        Assert.True(input.Repair.Bonds[0].RePrime);
        Assert.Equal([Hazard.Epoxy], input.Sheets[0].Hazards);
        Assert.IsType<ConstantClimate>(input.Climate);
    }

    [Fact]
    public void Aluminium_on_steel_needs_isolation_unless_the_file_says_otherwise()
    {
        using var folder = new Folder();
        folder.Spoil("repair.yaml", "position: overhead", "metal: [aluminium, steel]");
        Assert.True(folder.Read().Input!.Repair.Joints[0].GalvanicIsolation);

        folder.Spoil("repair.yaml", "metal: [aluminium, steel]", "metal: [aluminium, steel]\n    galvanic_isolation: no");
        Assert.False(folder.Read().Input!.Repair.Joints[0].GalvanicIsolation);
    }

    [Fact]
    public void What_holds_today_lies_over_the_shop_file()
    {
        var shop = RepairReader.Read(Path.Combine(Repository.Examples, "hem-tape")).Input!.Shop;
        Assert.Equal(Instant.FromUtc(2027, 3, 3, 10, 0), shop.Lamps!.FreeUntil);

        Assert.NotNull(RepairReader.Read(Path.Combine(Repository.Examples, "no-plan")).Input!.Shop.Supplier!.ClosedUntil);
    }

    [Fact]
    public void Several_like_packs_are_counted_out()
    {
        var packs = RepairReader.Read(Path.Combine(Repository.Examples, "cold-night")).Input!.Stock.Packs;

        Assert.Equal(["A-1", "A-2", "A-3", "B", "C", "W"], packs.Select(pack => pack.Id.Value));
        Assert.Equal(new LocalDate(2027, 5, 31), packs[0].Expires);
        Assert.Equal(300, packs[0].Left.Millilitres, 6);
    }

    [Fact]
    public void An_offset_makes_a_doubled_hour_clear()
    {
        using var folder = new Folder();
        folder.Spoil("repair.yaml", "2027-01-13T13:00]", "2027-10-31T02:30+01:00]");

        Assert.Equal(Instant.FromUtc(2027, 10, 31, 1, 30), folder.Read().Input!.Repair.PaintSlots[1]);
    }

    [Fact]
    public void A_mark_at_the_start_and_line_ends_of_another_system_change_nothing()
    {
        using var folder = new Folder();
        folder.Write("repair.yaml", "\uFEFF" + Folder.Repair.ReplaceLineEndings("\r\n"));

        Assert.Empty(folder.Read().Problems.Select(Repository.Shown));
    }

    [Fact]
    public void Everything_may_stand_in_one_json_file()
    {
        using var folder = new Folder();
        var whole = new Dictionary<string, object?>
        {
            ["seamwright"] = "repair/1",
            ["now"] = "2027-01-12T15:10",
            ["promise"] = "2027-01-13T16:00",
            ["slots"] = "2027-01-12T18:00",
            ["shop"] = new
            {
                name = "x",
                zone = "Europe/Vienna",
                currency = "CU",
                hours = new { days = "Mon-Fri", from = "07:30", to = "18:00" },
                people = new { id = "t", skills = "seal", per_hour = 66 },
                amounts = new { nozzle_price = 2.2 },
                time_value = new { bay_day = 240 },
            },
            ["materials"] = new
            {
                sheets = new[] { new { id = "TP", name = "strip", use = "seam-tape", chemistry = "strip", source = "invented", looks = "strip", pack = new { strip_length = "30 ft", price = 24 } } },
            },
            ["climate"] = new { temperature = "68 °F", humidity = "40 %" },
            ["joints"] = new[] { new { id = "J1", type = "hem", length = "20 in", look = new { profile = "strip", width = "10 mm" }, beneath = "electrocoat", masked = true } },
        };
        File.Delete(folder.At("repair.yaml"));
        folder.Write("repair.json", JsonSerializer.Serialize(whole));

        var reading = folder.Read();

        Assert.Empty(reading.Problems.Select(Repository.Shown));
        Assert.Equal(508, reading.Input!.Repair.Joints[0].Length.Millimetres, 9);
        Assert.Equal(20, reading.Input.Climate.At(reading.Input.Repair.Now).Temperature.Celsius, 9);
    }

    [Fact]
    public void The_content_hash_follows_every_byte_of_every_file()
    {
        using var folder = new Folder();
        string first = folder.Read().Input!.ContentHash;
        Assert.Equal(first, folder.Read().Input!.ContentHash);

        folder.Spoil("stock.yaml", "120 ml", "121 ml");

        Assert.NotEqual(first, folder.Read().Input!.ContentHash);
        Assert.Matches("^[0-9a-f]{64}$", first);
    }

    [Fact]
    public void Files_by_themselves_can_be_checked()
    {
        using var folder = new Folder();
        Assert.All(new[] { "repair.yaml", "shop.yaml", "materials.yaml", "stock.yaml" }, name => Assert.Empty(RepairReader.Check(folder.At(name))));

        folder.Spoil("shop.yaml", "66.00", "many");

        Assert.Equal(["value.not-money"], RepairReader.Check(folder.At("shop.yaml")).Select(problem => problem.Key));
    }

    [Fact]
    public void A_length_is_the_same_in_every_unit() =>
        Gen.Double[0.001, 0.29].Sample(
            metres =>
            {
                string[] texts =
                [
                    FormattableString.Invariant($"{metres * 1e3:R} mm"), FormattableString.Invariant($"{metres * 100:R}cm"),
                    FormattableString.Invariant($"{metres / 0.0254:R} in"), FormattableString.Invariant($"{metres / 0.3048:R} ft"),
                ];
                return texts.All(text => Math.Abs(Read(text, Measures.BeadSize)!.Value - metres) < 1e-12);
            },
            seed: "0000000000001");

    [Theory]
    [InlineData("1 h 30 min", 5400)]
    [InlineData("90min", 5400)]
    [InlineData("0.5 d", 43200)]
    [InlineData("2 weeks", 1209600)]
    public void Times_may_be_put_together(string text, double seconds) => Assert.Equal(seconds, Read(text, Measures.Duration)!.Value, 9);

    private static double? Read(string text, Measure measure) =>
        QuantityText.Read(new Field(new ScalarNode(default, text, true), "x", new SourceFile("x", new ProblemList())), measure);
}
