using System.Collections.Immutable;
using CsCheck;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Checking;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Program.Texts;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.WholeShop;

public sealed class ShopPlanTests
{
    private static readonly ShopPlanOptions Short = new() { Deterministic = true, Tries = 20 };

    [Fact]
    public void Plans_of_random_small_shops_pass_the_checker() => Shops(8, inputs =>
    {
        var plan = ShopPlanner.Plan(inputs, Short);

        Assert.Equal("", Against(inputs[0], plan));
        Assert.True(plan.LowerBound <= plan.Total);
    });

    [Fact]
    public void Sharing_the_shop_never_makes_a_vehicle_cheaper() => Shops(3, inputs =>
    {
        foreach (var vehicle in ShopPlanner.Plan(inputs, Short).Vehicles)
        {
            if (vehicle.PriceOfSharing is { } price)
                Assert.True(price.Rounded.Amount >= 0, $"{vehicle.Input.Repair.Id}: {price}");
        }
    });

    [Fact]
    public void One_vehicle_costs_what_it_costs_planned_by_itself()
    {
        for (int seed = 0; seed < 6; seed++)
        {
            var input = RandomRepairs.Small(seed);
            var alone = RepairPlanner.Answer(input, new PlanOptions { Deterministic = true, Alternatives = false }).Recommended;
            var shop = ShopPlanner.Plan([input], Short).Vehicles[0].Plan;

            Assert.Equal(alone is null, shop is null);
            if (alone is not null)
                Assert.Equal(alone.Cost.Total.Rounded, shop!.Cost.Total.Rounded);
        }
    }

    [Fact]
    public void Two_vehicles_that_want_one_slot_get_two()
    {
        var input = RandomRepairs.Small(3);
        var twins = Twins(input, 2);
        var plan = ShopPlanner.Plan(twins, Short);

        Assert.Equal(2, plan.Vehicles.Select(vehicle => vehicle.Plan!.Slot).Distinct().Count());
    }

    [Fact]
    public void Equal_seed_and_tries_give_the_equal_plan() => Shops(2, inputs =>
    {
        var (one, other) = (ShopPlanner.Plan(inputs, Short), ShopPlanner.Plan(inputs, Short));

        Assert.Equal(one.Vehicles.Select(Text), other.Vehicles.Select(Text));
        static string Text(VehiclePlan vehicle) => vehicle.Plan is { } plan ? PlanText.Of(plan) : "none";
    });

    [Fact]
    public void A_shop_with_one_bay_never_holds_two_vehicles()
    {
        var twins = Twins(RandomRepairs.Small(3), 2);
        ImmutableArray<RepairInput> narrow = [.. twins.Select(input => input with { Shop = input.Shop with { Bays = 1 } })];
        var plan = ShopPlanner.Plan(narrow, Short);

        Assert.Equal("", Against(narrow[0], plan));
    }

    [Fact]
    public void Nothing_is_done_before_a_vehicle_comes_in()
    {
        var input = RandomRepairs.Small(3);
        var later = input.Repair.Now + Duration.FromHours(3);
        var plan = ShopPlanner.Plan([input with { Repair = input.Repair with { Arrives = later } }], Short).Vehicles[0].Plan;

        Assert.All(plan!.Steps.Where(step => step.Person is not null), step => Assert.True(step.Start >= later));
    }

    [Fact]
    public void Vehicles_planned_from_different_moments_are_refused()
    {
        var input = RandomRepairs.Small(3);
        var other = input with { Repair = input.Repair with { Now = input.Repair.Now + Duration.FromHours(1) } };

        Assert.Throws<ArgumentException>(() => ShopPlanner.Plan([input, other], Short));
    }

    private static ImmutableArray<RepairInput> Twins(RepairInput input, int count)
    {
        var last = input.Repair.PaintSlots[^1];
        ImmutableArray<Instant> slots = [.. input.Repair.PaintSlots, .. Enumerable.Range(1, 3).Select(day => last + Duration.FromDays(day))];
        var shop = input.Shop with { Supplier = null };
        var stock = new Stock
        {
            Packs = [.. input.Sheets.SelectMany(sheet => Enumerable.Range(1, 2 * count).Select(number => new Pack { Id = new PackId($"{sheet.Id} {number}"), Material = sheet.Id, Left = sheet.Pack.Content, StripLeft = sheet.Pack.StripLength }))],
            Nozzles = [new NozzleStock(20 * count, null)],
        };
        return [.. Enumerable.Range(1, count).Select(number => input with { Repair = input.Repair with { Id = $"twin-{number}", PaintSlots = slots }, Shop = shop, Stock = stock })];
    }

    /// <summary>Two to four random repairs in one shop, from one moment, with more slots than vehicles.</summary>
    private static void Shops(int rounds, Action<ImmutableArray<RepairInput>> holds) =>
        Rounds.Look(
            Gen.Int[0, 100_000],
            rounds,
            seed =>
            {
                var first = RandomRepairs.Small(seed);
                var slots = Twins(first, 4)[0].Repair.PaintSlots;
                var stock = Twins(first, 4)[0].Stock;
                holds([.. Enumerable.Range(0, 2 + (seed % 3)).Select(number => Joined(first, RandomRepairs.Small(seed + number), slots, stock, number))]);
            });

    /// <summary>A repair moved into another one's shop and week. What was done before keeps its distance from now.</summary>
    private static RepairInput Joined(RepairInput first, RepairInput own, ImmutableArray<Instant> slots, Stock stock, int number)
    {
        var shift = first.Repair.Now - own.Repair.Now;
        var repair = own.Repair with
        {
            Id = $"vehicle-{number}",
            Now = first.Repair.Now,
            PaintSlots = slots,
            Promise = own.Repair.Promise + shift,
            Panel = own.Repair.Panel is { } panel ? panel with { At = panel.At + shift } : null,
            Joints = [.. own.Repair.Joints.Select(joint => joint with { Surface = joint.Surface with { Applied = joint.Surface.Applied + shift } })],
            Bonds = [.. own.Repair.Bonds.Select(bond => bond with { Closed = bond.Closed + shift })],
        };
        return first with { Repair = repair, Stock = stock, Shop = first.Shop with { Supplier = null } };
    }

    private static string Against(RepairInput input, ShopPlan plan)
    {
        var words = new Formatter(Sentences.Load("en"), Notation.Of(input.Shop, input.Repair.Now));
        return string.Join('\n', ShopChecker.Check(plan).Select(words.Sentence));
    }
}
