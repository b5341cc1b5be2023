using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Xunit;
using static Seamwright.SuitabilityTests.Invented;

namespace Seamwright.SuitabilityTests;

public class ClimateRuleTests
{
    private static VerdictKind Kind(string rule, DataSheet sheet, double panel, double air, double humidity) =>
        ClimateRules.Judge(sheet, C(panel), new AirState(C(air), RelativeHumidity.FromPercent(humidity))).Single(v => v.RuleId == rule).Kind;

    [Fact]   // climate.panel-cold; scenario 2, trap (a): air 17 °C passes, steel 11 °C fails
    public void A_cold_panel_is_refused_though_the_air_is_warm_enough()
    {
        Assert.Equal(VerdictKind.Refused, Kind("climate.panel-cold", E2S, 11, 17, 42));
        Assert.Equal(VerdictKind.Fine, Kind("climate.panel-cold", E2S, 15, 11, 42));
        Assert.Equal(VerdictKind.Fine, Kind("climate.panel-cold", PU1, 11, 17, 42));
    }

    [Fact]   // climate.panel-warm
    public void A_hot_panel_is_refused()
    {
        Assert.Equal(VerdictKind.Refused, Kind("climate.panel-warm", E2S, 35.1, 23, 50));
        Assert.Equal(VerdictKind.Fine, Kind("climate.panel-warm", E2S, 35, 23, 50));
    }

    [Fact]   // climate.humidity-low
    public void Air_drier_than_the_sheet_allows_is_refused()
    {
        var sheet = MS1 with { Limits = MS1.Limits with { HumidityFrom = RelativeHumidity.FromPercent(30) } };

        Assert.Equal(VerdictKind.Refused, Kind("climate.humidity-low", sheet, 20, 20, 29.9));
        Assert.Equal(VerdictKind.Fine, Kind("climate.humidity-low", sheet, 20, 20, 30.1));
    }

    [Fact]   // climate.humidity-high
    public void Air_damper_than_the_sheet_allows_is_refused_and_above_the_customary_limit_advised_against()
    {
        var sheet = MS1 with { Limits = MS1.Limits with { HumidityTo = RelativeHumidity.FromPercent(80) } };

        Assert.Equal(VerdictKind.Refused, Kind("climate.humidity-high", sheet, 30, 20, 80.1));
        Assert.Equal(VerdictKind.Fine, Kind("climate.humidity-high", sheet, 30, 20, 79.9));
        Assert.Equal(VerdictKind.Advice, Kind("climate.humidity-high", MS1, 30, 20, 86));
        Assert.Equal(VerdictKind.Fine, Kind("climate.humidity-high", MS1, 30, 20, 84));
    }

    [Fact]   // climate.water; scenario 2: 17 °C and 42 % hold 5.0 g/kg, PU1 asks 3.5
    public void Too_little_water_in_the_air_stops_a_moisture_cure()
    {
        Assert.Equal(VerdictKind.Fine, Kind("climate.water", PU1, 17, 17, 42));
        Assert.Equal(VerdictKind.Refused, Kind("climate.water", PU1, 20, 20, 23));
        Assert.Equal(VerdictKind.Fine, Kind("climate.water", E2S, 20, 20, 23));
    }

    [Fact]   // climate.dew-point; worked decision of reference-values 1.3: 16 °C, 71 %, steel 13 °C: do not paint
    public void A_panel_two_kelvin_above_the_dew_point_is_refused()
    {
        Assert.Equal(VerdictKind.Refused, Kind("climate.dew-point", PU1, 13, 16, 71));
        Assert.Equal(VerdictKind.Fine, Kind("climate.dew-point", PU1, 14, 16, 71));
        Assert.Equal(VerdictKind.Fine, Kind("climate.dew-point", PU1, 11, 17, 42));
    }
}

public class PackRuleTests
{
    private static readonly Pack Fresh = new() { Id = new PackId("C"), Material = E2F.Id, Left = Ml(220), Expires = new LocalDate(2027, 1, 31), Nozzles = 1 };

    private static VerdictKind Kind(string rule, Pack pack, DataSheet sheet, Instant use, int loose = 0) =>
        PackRules.Judge(pack, sheet, use, Berlin, loose).Single(v => v.RuleId == rule).Kind;

    [Fact]   // pack.expiry: usable through its day in the shop's zone
    public void A_pack_is_good_through_the_day_on_it()
    {
        Assert.Equal(VerdictKind.Fine, Kind("pack.expiry", Fresh, E2F, Local(2027, 1, 31, 23, 59)));
        Assert.Equal(VerdictKind.Refused, Kind("pack.expiry", Fresh, E2F, Local(2027, 2, 1, 0, 0)));
    }

    [Fact]   // pack.opened-life; scenario 1, pack E: 20 days open against 14; scenario 2: 78 against 60
    public void A_pack_open_longer_than_its_sheet_allows_is_refused()
    {
        var pu = new Pack { Id = new PackId("E"), Material = PU1.Id, Left = Ml(180), Opened = new LocalDate(2026, 12, 23) };
        var fast = Fresh with { Opened = new LocalDate(2026, 8, 20) };

        Assert.Equal(VerdictKind.Refused, Kind("pack.opened-life", pu, PU1, Local(2027, 1, 12, 15, 10)));
        Assert.Equal(VerdictKind.Fine, Kind("pack.opened-life", pu, PU1, Local(2027, 1, 6, 23, 59)));
        Assert.Equal(VerdictKind.Refused, Kind("pack.opened-life", pu, PU1, Local(2027, 1, 7, 0, 0)));
        Assert.Equal(VerdictKind.Refused, Kind("pack.opened-life", fast, E2F, Local(2026, 11, 6, 16, 45)));
    }

    [Fact]   // pack.activated-life
    public void An_activated_aerosol_dies_by_the_clock()
    {
        var sheet = PEP with { Pack = PEP.Pack with { ActivatedLife = Duration.FromHours(48) } };
        var can = new Pack { Id = new PackId("K"), Material = PEP.Id, Left = Ml(400), Activated = Local(2027, 6, 14, 8, 40) };

        Assert.Equal(VerdictKind.Fine, Kind("pack.activated-life", can, sheet, Local(2027, 6, 16, 8, 39)));
        Assert.Equal(VerdictKind.Refused, Kind("pack.activated-life", can, sheet, Local(2027, 6, 16, 8, 40)));
    }

    [Fact]   // pack.single-use
    public void The_opened_rest_of_a_single_use_pack_is_refused()
    {
        var foam = new Pack { Id = new PackId("G"), Material = FFX.Id, Left = Ml(200) };

        Assert.Equal(VerdictKind.Advice, Kind("pack.single-use", foam, FFX, Local(2027, 1, 12, 15, 10)));
        Assert.Equal(VerdictKind.Refused, Kind("pack.single-use", foam with { Opened = new LocalDate(2027, 1, 11) }, FFX, Local(2027, 1, 12, 15, 10)));
    }

    [Fact]   // pack.partner
    public void A_pack_without_its_second_component_is_refused()
    {
        Assert.Equal(VerdictKind.Refused, Kind("pack.partner", Fresh with { PartnerMissing = true }, E2F, Local(2027, 1, 12, 15, 10)));
        Assert.Equal(VerdictKind.Fine, Kind("pack.partner", Fresh, E2F, Local(2027, 1, 12, 15, 10)));
    }

    [Fact]   // pack.hold, pack.empty, pack.material
    public void Set_aside_empty_and_wrong_packs_are_refused()
    {
        var use = Local(2027, 1, 12, 15, 10);

        Assert.Equal(VerdictKind.Refused, Kind("pack.hold", Fresh with { OnHold = "skinned" }, E2F, use));
        Assert.Equal(VerdictKind.Fine, Kind("pack.hold", Fresh, E2F, use));
        Assert.Equal(VerdictKind.Refused, Kind("pack.empty", Fresh with { Left = Volume.Zero }, E2F, use));
        Assert.Equal(VerdictKind.Fine, Kind("pack.empty", Fresh, E2F, use));
        Assert.Equal(VerdictKind.Refused, Kind("pack.material", Fresh, E2S, use));
        Assert.Equal(VerdictKind.Fine, Kind("pack.material", Fresh, E2F, use));
    }

    [Fact]   // pack.nozzle; scenario 1: packs C and G come without nozzles
    public void A_mixed_pack_needs_a_nozzle_from_somewhere()
    {
        var none = Fresh with { Nozzles = null };
        var use = Local(2027, 1, 12, 15, 10);

        Assert.Equal(VerdictKind.Refused, Kind("pack.nozzle", none, E2F, use));
        Assert.Equal(VerdictKind.Advice, Kind("pack.nozzle", none, E2F, use, loose: 1));
        Assert.Equal(VerdictKind.Fine, Kind("pack.nozzle", Fresh, E2F, use));
        Assert.Equal(VerdictKind.Fine, Kind("pack.nozzle", new Pack { Id = new PackId("F"), Material = E2S.Id, Left = Ml(200) }, E2S, use));
    }
}

public class PersonRuleTests
{
    private static Person Technician(ImmutableDictionary<string, LocalDate>? trainings) =>
        new("T1", "technician", [Skill.Seal, Skill.Prime], Price(66), [], trainings);

    private static VerdictKind Kind(string rule, Person person, DataSheet sheet) =>
        PersonRules.Judge(person, sheet, new LocalDate(2027, 1, 12)).Single(v => v.RuleId == rule).Kind;

    [Fact]   // person.training
    public void Training_must_be_current_where_the_shop_keeps_a_list()
    {
        var current = ImmutableDictionary<string, LocalDate>.Empty.Add("diisocyanates", new LocalDate(2027, 1, 12));

        Assert.Equal(VerdictKind.Fine, Kind("person.training", Technician(current), PU1));
        Assert.Equal(VerdictKind.Refused, Kind("person.training", Technician(current.SetItem("diisocyanates", new LocalDate(2027, 1, 11))), PU1));
        Assert.Equal(VerdictKind.Refused, Kind("person.training", Technician(ImmutableDictionary<string, LocalDate>.Empty), PU1));
        Assert.Equal(VerdictKind.Advice, Kind("person.training", Technician(null), PU1));
        Assert.Equal(VerdictKind.Fine, Kind("person.training", Technician(null), MS1));
    }

    [Fact]   // person.skill: the helper cleans, masks and primes but does not seal
    public void A_helper_does_not_seal()
    {
        var helper = Technician(null) with { Skills = [Skill.Clean, Skill.Mask, Skill.Prime, Skill.Check] };

        Assert.Equal(VerdictKind.Refused, Kind("person.skill", helper, MS1));
        Assert.Equal(VerdictKind.Fine, Kind("person.skill", helper, PEP));
    }
}

public class PrimerRuleTests
{
    private static VerdictKind Kind(string rule, DataSheet primer, SurfaceKind on, Metal metal, DataSheet? over = null, bool welded = false, bool torsion = false) =>
        PrimerRules.Judge(new PrimerCase { Primer = primer, On = on, Metals = [metal], Over = over, WillBeWelded = welded, Torsion = torsion })
            .Single(v => v.RuleId == rule).Kind;

    [Fact]   // primer.kind
    public void Only_a_primer_primes()
    {
        Assert.Equal(VerdictKind.Refused, Kind("primer.kind", MS1, SurfaceKind.BareSteel, Metal.Steel));
        Assert.Equal(VerdictKind.Fine, Kind("primer.kind", PEP, SurfaceKind.BareSteel, Metal.Steel));
    }

    [Fact]   // primer.surface
    public void A_primer_goes_where_its_sheet_says()
    {
        var steelOnly = PEP with { Surfaces = PEP.Surfaces.Remove(SurfaceKind.BareAluminium) };

        Assert.Equal(VerdictKind.Fine, Kind("primer.surface", PEP, SurfaceKind.BareAluminium, Metal.Aluminium));
        Assert.Equal(VerdictKind.Refused, Kind("primer.surface", steelOnly, SurfaceKind.BareAluminium, Metal.Aluminium));
        Assert.Equal(VerdictKind.Refused, Kind("primer.surface", PWT, SurfaceKind.BareAluminium, Metal.Aluminium));
        Assert.Equal(VerdictKind.Advice, Kind("primer.surface", PEP, SurfaceKind.ElectroCoat, Metal.Steel));
    }

    [Fact]   // primer.over-etch; order rule O1
    public void Epoxy_primer_does_not_go_over_etch()
    {
        var bold = PEP with { Surfaces = PEP.Surfaces.SetItem(SurfaceKind.EtchPrimer, true) };

        Assert.Equal(VerdictKind.Refused, Kind("primer.over-etch", PEP, SurfaceKind.EtchPrimer, Metal.Steel));
        Assert.Equal(VerdictKind.NeedsSignOff, Kind("primer.over-etch", bold, SurfaceKind.EtchPrimer, Metal.Steel));
        Assert.Equal(VerdictKind.Fine, Kind("primer.over-etch", PEP, SurfaceKind.BareSteel, Metal.Steel));
    }

    [Fact]   // primer.etch-beneath; scenario 4: P-ET under E2S is refused
    public void Etch_is_not_sprayed_where_two_part_will_follow()
    {
        Assert.Equal(VerdictKind.Refused, Kind("primer.etch-beneath", PET, SurfaceKind.BareSteel, Metal.Steel, E2S));
        Assert.Equal(VerdictKind.Advice, Kind("primer.etch-beneath", PET, SurfaceKind.BareSteel, Metal.Steel, MS1));
        Assert.Equal(VerdictKind.Fine, Kind("primer.etch-beneath", PEP, SurfaceKind.BareSteel, Metal.Steel, E2S));
    }

    [Fact]   // primer.torsion
    public void Etch_does_not_count_as_a_primer_in_a_ditch()
    {
        Assert.Equal(VerdictKind.Refused, Kind("primer.torsion", PET, SurfaceKind.BareSteel, Metal.Steel, MS1, torsion: true));
        Assert.Equal(VerdictKind.Fine, Kind("primer.torsion", PEP, SurfaceKind.BareSteel, Metal.Steel, MS1, torsion: true));
        Assert.Equal(VerdictKind.Fine, Kind("primer.torsion", PET, SurfaceKind.BareSteel, Metal.Steel, MS1));
    }

    [Fact]   // primer.zinc-metal, primer.zinc-place
    public void Zinc_goes_on_steel_faces_that_will_be_welded()
    {
        Assert.Equal(VerdictKind.Refused, Kind("primer.zinc-metal", PWT, SurfaceKind.BareAluminium, Metal.Aluminium, welded: true));
        Assert.Equal(VerdictKind.Fine, Kind("primer.zinc-metal", PWT, SurfaceKind.BareSteel, Metal.Steel, welded: true));
        Assert.Equal(VerdictKind.Refused, Kind("primer.zinc-place", PWT, SurfaceKind.BareSteel, Metal.Steel));
        Assert.Equal(VerdictKind.Advice, Kind("primer.zinc-place", PWT, SurfaceKind.BareSteel, Metal.Steel, welded: true));
    }
}

public class GalvanicSeriesTests
{
    [Theory]   // reference-values 6.2, table I, V = 0.001 mV steps; tolerance 0.005 V within one table
    [InlineData("V1", SeriesMetal.CarbonSteel, SeriesMetal.WroughtAluminium, 50, 50)]
    [InlineData("V2", SeriesMetal.CarbonSteel, SeriesMetal.HotDipZinc, 350, 350)]
    [InlineData("V3", SeriesMetal.WroughtAluminium, SeriesMetal.HotDipZinc, 300, 300)]
    [InlineData("V4", SeriesMetal.WroughtAluminium, SeriesMetal.Stainless, 400, 400)]
    [InlineData("V5", SeriesMetal.WroughtAluminium, SeriesMetal.Graphite, 850, 900)]
    [InlineData("V6", SeriesMetal.CarbonSteel, SeriesMetal.Graphite, 800, 850)]
    [InlineData("V7", SeriesMetal.Magnesium, SeriesMetal.CarbonSteel, 900, 900)]
    [InlineData("V8", SeriesMetal.Gold, SeriesMetal.Silver, 150, 150)]
    public void Differences_agree_with_the_table(string row, SeriesMetal a, SeriesMetal b, int least, int most)
    {
        Assert.True(GalvanicSeries.Difference(a, b) >= least - 5 && GalvanicSeries.Difference(a, b) <= most + 5, row);
        Assert.Equal(GalvanicSeries.Difference(a, b), GalvanicSeries.Difference(b, a));
    }

    [Fact]   // V1…V7: the alarm can only add
    public void The_difference_neither_frees_steel_on_aluminium_nor_refuses_zinc_on_steel()
    {
        Assert.Equal(GalvanicNeed.Isolation, GalvanicSeries.Need(Metal.Steel, Metal.Aluminium));
        Assert.Equal(GalvanicNeed.Isolation, GalvanicSeries.Need(Metal.Aluminium, Metal.ZincCoatedSteel));
        Assert.Equal(GalvanicNeed.Intended, GalvanicSeries.Need(Metal.ZincCoatedSteel, Metal.Steel));
        Assert.Equal(GalvanicNeed.Isolation, GalvanicSeries.Need(Metal.Aluminium, Metal.StainlessSteel));
        Assert.Equal(GalvanicNeed.Isolation, GalvanicSeries.Need(Metal.Steel, Metal.CarbonFibre));
        Assert.Equal(GalvanicNeed.Isolation, GalvanicSeries.Need(Metal.Magnesium, Metal.Steel));
        Assert.Equal(GalvanicNeed.Nothing, GalvanicSeries.Need(Metal.Aluminium, Metal.Aluminium));
    }

    [Fact]
    public void Every_pair_of_metals_has_an_answer_that_does_not_depend_on_the_order()
    {
        foreach (var a in Enum.GetValues<Metal>())
        {
            foreach (var b in Enum.GetValues<Metal>())
                Assert.Equal(GalvanicSeries.Need(a, b), GalvanicSeries.Need(b, a));
        }
    }
}
