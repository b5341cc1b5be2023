using System.Collections.Immutable;
using CsCheck;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Properties;

/// <summary>What the laws of curing and of buying say about whole plans.</summary>
public sealed class TradeLawTests
{
    private static readonly PlanOptions OnePlan = new() { Deterministic = true, Alternatives = false };

    [Fact]
    public void Hotter_air_never_cures_a_two_part_seal_later() =>
        Rounds.Look(
            Gen.Select(AnyOf("E2S", "E2F", "MA2"), Gen.Double[15, 33], Gen.Double[0, 2], Gen.Double[0.25, 0.5]),
            12,
            drawn =>
            {
                var (material, celsius, warmer, humidity) = drawn;
                var (cold, warm) = (CureOf(material, celsius, humidity), CureOf(material, celsius + warmer, humidity));

                Assert.True(warm <= cold, $"{material}: cured in {cold} at {celsius} °C, {warm} at {celsius + warmer} °C");
            });

    [Fact]
    public void Damper_air_never_cures_a_moisture_cure_later() =>
        Rounds.Look(
            Gen.Select(AnyOf("PU1", "MS1"), Gen.Double[18, 30], Gen.Double[0.35, 0.6], Gen.Double[0, 0.15]),
            12,
            drawn =>
            {
                var (material, celsius, humidity, damper) = drawn;
                var (dry, damp) = (CureOf(material, celsius, humidity), CureOf(material, celsius, humidity + damper));

                Assert.True(damp <= dry, $"{material}: cured in {dry} at {humidity}, {damp} at {humidity + damper}");
            });

    [Fact]
    public void A_further_material_on_the_shelf_never_makes_the_best_plan_dearer() =>
        Rounds.Look(
            Gen.Select(Gen.Int[0, 1_000_000], AnyOf("PU1", "MS1", "MSS", "E2S", "E2F", "MA2")),
            15,
            drawn =>
            {
                var (seed, added) = drawn;
                var with = WithPacks(RandomRepairs.Small(seed), added);
                var without = with with { Sheets = [.. with.Sheets.Where(sheet => sheet.Id.Value != added)], Stock = with.Stock with { Packs = [.. with.Stock.Packs.Where(pack => pack.Material.Value != added)] } };
                if (RepairPlanner.Answer(without, OnePlan).Recommended is not { ProvenOptimal: true } few || RepairPlanner.Answer(with, OnePlan).Recommended is not { ProvenOptimal: true } more)
                    return;

                Assert.True(more.Cost.Total.Rounded <= few.Cost.Total.Rounded, $"seed {seed}, {added}: {few.Cost.Total.Rounded} became {more.Cost.Total.Rounded}");
            });

    private static Gen<string> AnyOf(params string[] names) => Gen.Int[0, names.Length - 1].Select(index => names[index]);

    /// <summary>
    /// How long a seam of one material on a sound coat cures in steady air, from the end of its application. (Not when it is
    /// ready: in hotter air a mixing nozzle sets sooner, and changing it takes minutes.)
    /// </summary>
    private static Duration CureOf(string material, double celsius, double humidity)
    {
        var input = RandomRepairs.Small(1);
        var now = RandomRepairs.At(new LocalDate(2027, 3, 1), 8 * 60);
        var joint = new Joint
        {
            Id = new PlaceId("J1"),
            Name = "seam",
            Type = JointType.Lap,
            Length = Length.FromMetres(0.6),
            Metals = [Metal.Steel],
            Position = Position.Level,
            Look = new Look(Profile.HalfRound, Length.FromMillimetres(8), Length.FromMillimetres(2), Visible: false, Strict: false),
            Surface = new Surface(SurfaceKind.ElectroCoat, null, null),
            Wanted = new MaterialId(material),
        };
        var repair = new Repair
        {
            Id = "one-seam",
            Name = "one seam",
            Now = now,
            Promise = now + Duration.FromDays(3),
            PaintSlots = [.. Enumerable.Range(0, 3).Select(day => now + Duration.FromHours(8) + Duration.FromDays(day))],
            Joints = [joint],
        };
        var one = new RepairInput(repair, input.Shop, input.Sheets, input.Stock, new ConstantClimate(new AirState(Temperature.FromCelsius(celsius), RelativeHumidity.FromFraction(humidity))), "one");
        var seam = RepairPlanner.Answer(WithPacks(one, material), OnePlan).Recommended!.Joints[0];
        return seam.Ready!.Value - seam.Applied!.Value.End;
    }

    private static RepairInput WithPacks(RepairInput input, string material)
    {
        var sheet = input.Sheets.First(sheet => sheet.Id.Value == material);
        var packs = Enumerable.Range(1, 3).Select(number => new Pack { Id = new PackId($"more {number}"), Material = sheet.Id, Left = sheet.Pack.Content, StripLeft = sheet.Pack.StripLength });
        return input with { Stock = new Stock { Packs = [.. input.Stock.Packs.Where(pack => pack.Material != sheet.Id), .. packs], Nozzles = [new NozzleStock(20, null)] } };
    }
}
