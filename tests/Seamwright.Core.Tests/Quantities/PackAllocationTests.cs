using System.Collections.Immutable;
using CsCheck;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Shops;
using Seamwright.Units;
using Xunit;
using static Seamwright.SuitabilityTests.Invented;

namespace Seamwright.QuantitiesTests;

public class PackAllocationTests
{
    private static readonly Instant Now = Local(2027, 1, 12, 16, 0);

    private static Pack PackOf(string id, DataSheet sheet, double ml, LocalDate? expires = null, LocalDate? opened = null, int? nozzles = null) => new()
    {
        Id = new PackId(id),
        Material = sheet.Id,
        Lot = "L-" + id,
        Left = Ml(ml),
        Expires = expires,
        Opened = opened,
        Nozzles = nozzles,
    };

    private static PackDemand Need(string id, DataSheet sheet, double ml, Instant? at = null, int runs = 1) =>
        new() { Id = id, Material = sheet.Id, Volume = Ml(ml), PlannedUse = at ?? Now, Runs = runs };

    private static PackAllocation Allocate(IEnumerable<PackDemand> demands, IEnumerable<Pack> packs, int loose = 10, params OrderedPack[] ordered) =>
        PackAllocation.Allocate(demands, new Stock { Packs = [.. packs], Nozzles = [new NozzleStock(loose, null)] }, Sheets, Berlin, PlainShop.Amounts, ordered);

    private static string[] Used(PackAllocation allocation) => [.. allocation.Takes.Select(take => take.Pack.Value)];

    [Fact]   // FEFO, reference-values 10.1: filter, then opened, then earliest expiry
    public void FEFO_takes_the_usable_first_then_the_opened_then_the_one_that_ends_first()
    {
        Pack[] packs =
        [
            PackOf("late", MS1, 290, new LocalDate(2027, 8, 31)),
            PackOf("early", MS1, 290, new LocalDate(2027, 3, 31)),
            PackOf("expired", MS1, 290, new LocalDate(2027, 1, 11)),
            PackOf("opened", MS1, 40, new LocalDate(2027, 12, 31), opened: new LocalDate(2027, 1, 5)),
            PackOf("open too long", MS1, 290, opened: new LocalDate(2026, 12, 1)),
            PackOf("held", MS1, 290, new LocalDate(2027, 2, 1)) with { OnHold = "skinned" },
        ];

        Assert.Equal(["opened"], Used(Allocate([Need("a", MS1, 30)], packs)));
        Assert.Equal(["opened", "early"], Used(Allocate([Need("a", MS1, 100)], packs)));
        Assert.Equal(["early", "late"], Used(Allocate([Need("a", MS1, 300)], packs.Where(pack => pack.Id.Value != "opened"))));
    }

    [Fact]   // FEFO: least waste breaks ties
    public void Among_equals_the_pack_that_leaves_least_is_taken()
    {
        var opened = new LocalDate(2027, 1, 10);

        Assert.Equal(["small"], Used(Allocate([Need("a", MS1, 50)], [PackOf("big", MS1, 200, null, opened), PackOf("small", MS1, 60, null, opened)])));
        Assert.Equal(["big"], Used(Allocate([Need("a", MS1, 100)], [PackOf("small", MS1, 60, null, opened), PackOf("big", MS1, 200, null, opened)])));
    }

    [Fact]   // scenario 1: SL2 expired, one nozzle for E2F, SL2 and the foam: one SL2 and two nozzles to order
    public void Scenario_1_orders_one_pack_and_two_nozzles()
    {
        Pack[] packs =
        [
            PackOf("A", SL2, 200, new LocalDate(2026, 11, 30)),
            PackOf("C", E2F, 220, new LocalDate(2027, 1, 31)),
            PackOf("G", FFX, 200, new LocalDate(2027, 10, 31)),
        ];
        PackDemand[] demands = [Need("J2", SL2, 62.1, Local(2027, 1, 12, 16, 15)), Need("J3", E2F, 25.3, Local(2027, 1, 12, 16, 30)), Need("J5", FFX, 150, Local(2027, 1, 13, 8, 0))];

        var allocation = Allocate(demands, packs, loose: 1);
        var orders = OrderList.For(allocation, Sheets, Supplier, Berlin);

        Assert.Equal(["C", "G"], Used(allocation));
        Assert.Equal(("J2", 1), (allocation.Shortages.Single().Demand, allocation.Shortages.Single().PacksToOrder));
        Assert.Equal(2, allocation.NozzleShortages.Sum(shortage => shortage.Count));
        Assert.Equal(Local(2027, 1, 12, 15, 15), orders.Packs.Single().LatestOrder);
    }

    [Fact]   // scenario 3: roll 1 with 4.2 m; roll 2 expired
    public void Scenario_3_cuts_both_pieces_from_the_roll_that_is_in_date()
    {
        Pack[] rolls =
        [
            new() { Id = new PackId("1"), Material = TP.Id, StripLeft = Length.FromMetres(4.2), Expires = new LocalDate(2028, 1, 31) },
            new() { Id = new PackId("2"), Material = TP.Id, StripLeft = Length.FromMetres(9), Expires = new LocalDate(2026, 12, 31) },
        ];
        var demand = new PackDemand { Id = "hem", Material = TP.Id, Pieces = [Mm(1030), Mm(680)], PlannedUse = Local(2027, 3, 3, 12, 5) };

        var allocation = Allocate([demand], rolls);

        Assert.True(allocation.IsComplete);
        Assert.Equal(["1"], Used(allocation));
        Assert.Equal(4.2 - 1.71, allocation.Packs[0].After.StripLeft.Metres, 1e-9);
    }

    [Fact]
    public void A_piece_of_strip_is_never_joined_from_two_rolls()
    {
        Pack[] rolls = [.. new[] { "1", "2" }.Select(id => new Pack { Id = new PackId(id), Material = TP.Id, StripLeft = Length.FromMetres(1) })];
        PackDemand Of(double metres) => new() { Id = "hem", Material = TP.Id, Pieces = [Length.FromMetres(metres)], PlannedUse = Now };

        Assert.Equal(1, Allocate([Of(1.2)], rolls).Shortages.Single().PacksToOrder);
        Assert.Null(Allocate([Of(9.1)], rolls).Shortages.Single().PacksToOrder);
        Assert.Empty(Allocate([Of(1.2)], rolls).Takes);
        Assert.True(Allocate([Of(1.0)], rolls).IsComplete);
    }

    [Fact]   // scenario 4: 126 ml of E2S and one nozzle set, about 134 ml from one pack
    public void Scenario_4_takes_134_millilitres_from_one_pack_with_its_own_nozzle()
    {
        var allocation = Allocate([Need("seal", E2S, 126)], [PackOf("1", E2S, 200, new LocalDate(2028, 3, 31)), PackOf("2", E2S, 200, new LocalDate(2028, 3, 31))], loose: 0);

        var take = Assert.Single(allocation.Takes);
        Assert.Equal(134, take.Volume.Millilitres, 1e-6);
        Assert.Equal(new NozzleTake("seal", take.Pack, "2:1", 1), Assert.Single(allocation.NozzleTakes));
        Assert.Equal(66, allocation.Packs.Single(rest => rest.Touched).After.Left.Millilitres, 1e-6);
    }

    [Fact]   // scenario 5: 306 ml and two nozzles of 8 ml: both packs of 200
    public void Scenario_5_takes_both_packs_and_two_nozzles()
    {
        Pack[] packs = [PackOf("1", SL2, 200), PackOf("2", SL2, 200)];

        var allocation = Allocate([Need("ditches", SL2, 306)], packs, loose: 3);

        Assert.Equal(["1", "2"], Used(allocation));
        Assert.Equal(322, allocation.Takes.Sum(take => take.Volume.Millilitres), 1e-6);
        Assert.Equal(2, allocation.NozzleTakes.Sum(take => take.Count));
        Assert.Equal(1, Allocate([Need("ditches", SL2, 306)], packs.Take(1)).Shortages.Single().PacksToOrder);
    }

    [Fact]
    public void More_runs_than_packs_take_more_nozzles_and_their_waste()
    {
        var allocation = Allocate([Need("a", E2F, 100, runs: 3)], [PackOf("1", E2F, 220)]);

        Assert.Equal(124, Assert.Single(allocation.Takes).Volume.Millilitres, 1e-6);
        Assert.Equal(100, allocation.Takes[0].OnTheCar.Millilitres, 1e-6);
        Assert.Equal(3, allocation.NozzleTakes.Sum(take => take.Count));
    }

    [Fact]
    public void A_rest_that_only_fills_its_nozzle_is_left_alone() =>
        Assert.Equal(["full"], Used(Allocate([Need("a", E2F, 20)], [PackOf("rest", E2F, 8, null, new LocalDate(2027, 1, 10)), PackOf("full", E2F, 220)])));

    [Fact]   // nozzles that lie with a pack fit its ratio only
    public void Nozzles_go_by_ratio()
    {
        Pack[] packs = [PackOf("F", E2S, 200), PackOf("C", E2F, 220), PackOf("S", E2S, 200, new LocalDate(2028, 1, 1))];

        Assert.Equal(1, Allocate([Need("a", E2F, 20)], packs, loose: 0).NozzleShortages.Single().Count);
        Assert.True(Allocate([Need("a", E2S, 20, runs: 4)], packs, loose: 0).IsComplete);
        Assert.Equal(1, Allocate([Need("a", E2S, 20, runs: 5)], packs, loose: 0).NozzleShortages.Single().Count);
    }

    [Fact]
    public void Nozzles_of_any_ratio_are_kept_for_those_who_have_no_other()
    {
        Pack[] packs = [PackOf("F", E2S, 200, nozzles: 0), PackOf("S", E2S, 200, new LocalDate(2026, 1, 1)), PackOf("C", E2F, 220)];

        Assert.True(Allocate([Need("a", E2S, 20), Need("b", E2F, 20, Now + Duration.FromHours(1))], packs, loose: 1).IsComplete);
    }

    [Fact]
    public void A_single_use_pack_serves_once_and_its_rest_is_waste()
    {
        var allocation = Allocate([Need("a", FFX, 50), Need("b", FFX, 50, Now + Duration.FromHours(1))], [PackOf("1", FFX, 200), PackOf("2", FFX, 200)]);

        Assert.Equal(["1", "2"], Used(allocation));
        Assert.All(allocation.Packs, rest => Assert.True(rest.RestIsWaste));
        Assert.Single(Allocate([Need("a", FFX, 50), Need("b", FFX, 50, Now + Duration.FromHours(1))], [PackOf("1", FFX, 200)]).Shortages);
    }

    [Fact]
    public void Opened_life_runs_from_the_first_planned_use()
    {
        PackDemand[] demands = [Need("today", PU1, 50), Need("in time", PU1, 50, Local(2027, 1, 26, 17, 0)), Need("too late", PU1, 50, Local(2027, 1, 27, 8, 0))];

        var allocation = Allocate(demands, [PackOf("1", PU1, 300)]);

        Assert.Equal(["today", "in time"], allocation.Takes.Select(take => take.Demand));
        Assert.Equal("too late", Assert.Single(allocation.Shortages).Demand);
        Assert.Equal(new LocalDate(2027, 1, 26), allocation.Packs[0].LastDay);
        Assert.Equal(PackLimit.OpenedLife, allocation.Packs[0].Usable.Limit);
    }

    [Fact]   // opening the big pack today, because it expires first, would end its life before the session that needs it
    public void The_order_of_use_gives_way_where_it_would_leave_a_later_session_short()
    {
        Pack[] packs = [PackOf("big", MS1, 290, new LocalDate(2027, 4, 1)), PackOf("small", MS1, 100, new LocalDate(2027, 9, 1))];

        var allocation = Allocate([Need("today", MS1, 50), Need("in March", MS1, 250, Local(2027, 3, 20, 8, 0))], packs);

        Assert.True(allocation.IsComplete);
        Assert.Equal(["small", "big"], Used(allocation));
    }

    [Fact]
    public void An_ordered_pack_serves_only_after_it_has_arrived()
    {
        var ordered = new OrderedPack(PackOf("new", MS1, 290), Now + Duration.FromMinutes(10));

        Assert.Single(Allocate([Need("a", MS1, 50)], [], 0, ordered).Shortages);
        Assert.True(Allocate([Need("a", MS1, 50, Now + Duration.FromMinutes(10))], [], 0, ordered).IsComplete);
    }

    [Fact]
    public void An_aerosol_is_activated_by_its_first_use()
    {
        var sheet = PEP with { Pack = PEP.Pack with { ActivatedLife = Duration.FromHours(48) } };
        var sheets = Sheets.SetItem(sheet.Id, sheet);

        var allocation = PackAllocation.Allocate(
            [Need("a", sheet, 76, Local(2027, 6, 14, 8, 40))], new Stock { Packs = [PackOf("can", sheet, 400)] }, sheets, Berlin, PlainShop.Amounts);

        Assert.Equal(Local(2027, 6, 16, 8, 40), allocation.Packs[0].Usable.Until);
        Assert.Equal(new LocalDate(2027, 6, 16), allocation.Packs[0].LastDay);
    }

    private static Supplier Supplier => new(
        Price(5), Duration.FromMinutes(60),
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday],
        new LocalTime(8, 0), new LocalTime(17, 0), []);

    [Fact]
    public void The_latest_order_lies_in_the_suppliers_hours()
    {
        Assert.Equal(Local(2027, 1, 12, 15, 15), SupplierHours.LatestOrder(Supplier, Berlin, Local(2027, 1, 12, 16, 15)));
        Assert.Equal(Local(2027, 1, 12, 17, 0), SupplierHours.LatestOrder(Supplier, Berlin, Local(2027, 1, 12, 20, 0)));
        Assert.Equal(Local(2027, 1, 15, 17, 0), SupplierHours.LatestOrder(Supplier, Berlin, Local(2027, 1, 18, 8, 30)));
        Assert.Equal(Local(2027, 1, 18, 9, 0), SupplierHours.Arrival(Supplier, Berlin, Local(2027, 1, 15, 17, 1)));
        Assert.Equal(Local(2027, 1, 12, 16, 10), SupplierHours.Arrival(Supplier, Berlin, Local(2027, 1, 12, 15, 10)));
        Assert.Null(SupplierHours.LatestOrder(Supplier with { Days = [] }, Berlin, Now));
    }

    [Fact]   // scenario 1: charge is the used share and 2.20 a nozzle
    public void A_charge_is_the_used_share_of_the_pack_and_its_nozzles()
    {
        var allocation = Allocate([Need("J3", E2F, 25.3)], [PackOf("C", E2F, 220)]);
        var charge = MaterialCharge.Of(allocation.Takes[0], allocation.Packs[0], E2F, PlainShop.Amounts.NozzlePrice);
        var lost = MaterialCharge.Of(allocation.Takes[0], allocation.Packs[0], E2F, PlainShop.Amounts.NozzlePrice, restIsLost: true);

        Assert.Equal(Price(5.75m), charge.Used.Rounded);
        Assert.Equal(Price(2.20m), charge.Nozzles);
        Assert.Equal(Money.Zero, charge.Wasted);
        Assert.Equal(Price(40.20m), lost.Total.Rounded);
    }

    [Fact]
    public void A_single_use_pack_is_paid_in_full()
    {
        var allocation = Allocate([Need("J5", FFX, 50)], [PackOf("G", FFX, 200)]);

        Assert.Equal(Price(38.20m), MaterialCharge.Of(allocation.Takes[0], allocation.Packs[0], FFX, PlainShop.Amounts.NozzlePrice).Total.Rounded);
    }

    [Fact]
    public void Every_shortage_and_rest_has_words()
    {
        var allocation = Allocate([Need("a", SL2, 50), Need("b", FFX, 50)], [PackOf("G", FFX, 200)], loose: 0);
        var orders = OrderList.For(allocation, Sheets, null, Berlin);

        Assert.Equal("paste-missing", StockReasons.Of(allocation.Shortages[0]).Key);
        Assert.Equal("nozzles-missing", StockReasons.Of(allocation.NozzleShortages[0]).Key);
        Assert.Equal("rest-is-waste", StockReasons.Of(allocation.Packs[0]).Key);
        Assert.Equal("order-packs-nobody-delivers", StockReasons.Of(orders.Packs[0]).Key);
        Assert.Equal("order-nozzles-nobody-delivers", StockReasons.Of(orders.Nozzles[0]).Key);
    }
}

/// <summary>What holds for every stock and every demand.</summary>
public class PackAllocationProperties
{
    private static readonly Instant Start = Local(2027, 1, 4, 8, 0);
    private static readonly DataSheet[] Kinds = [MS1, E2F, FFX, TP];

    private static readonly Gen<Pack> AnyPack = Gen.Select(Gen.Int[0, 3], Gen.Double[0, 300], Gen.Int[-3, 30], Gen.Int[-30, 10], Gen.Int[0, 9])
        .Select((kind, left, expires, opened, mood) => new Pack
        {
            Id = new PackId("?"),
            Material = Kinds[kind].Id,
            Left = kind == 3 ? Volume.Zero : Ml(left),
            StripLeft = kind == 3 ? Mm(left * 20) : Length.Zero,
            Expires = mood > 6 ? null : Start.InZone(Berlin).Date.PlusDays(expires),
            Opened = opened <= 0 && mood > 3 ? Start.InZone(Berlin).Date.PlusDays(opened) : null,
            OnHold = mood == 1 ? "held" : null,
            PartnerMissing = mood == 2 && kind is 1 or 2,
        });

    private static readonly Gen<PackDemand> AnyDemand = Gen.Select(Gen.Int[0, 3], Gen.Double[1, 250], Gen.Int[0, 20], Gen.Int[1, 3], Gen.Int[1, 3])
        .Select((kind, ml, day, runs, pieces) => new PackDemand
        {
            Id = "?",
            Material = Kinds[kind].Id,
            Volume = kind == 3 ? Volume.Zero : Ml(ml),
            Pieces = kind == 3 ? [.. Enumerable.Range(1, pieces).Select(i => Mm(ml * 10 * i))] : [],
            PlannedUse = Start + Duration.FromDays(day),
            Runs = kind is 1 or 2 ? runs : 1,
        });

    private static readonly Gen<(Pack[] Packs, PackDemand[] Demands)> AnyShop = Gen.Select(AnyPack.Array[0, 6], AnyDemand.Array[1, 5])
        .Select((packs, demands) => (
            packs.Select((pack, i) => pack with { Id = new PackId("P" + i) }).ToArray(),
            demands.Select((demand, i) => demand with { Id = "D" + i }).ToArray()));

    private static PackAllocation Allocate(IEnumerable<Pack> packs, IEnumerable<PackDemand> demands) =>
        PackAllocation.Allocate(demands, new Stock { Packs = [.. packs], Nozzles = [new NozzleStock(2, null)] }, Sheets, Berlin, PlainShop.Amounts);

    [Fact]
    public void What_is_taken_and_what_is_left_is_what_was_there() =>
        AnyShop.Sample(shop =>
        {
            var allocation = Allocate(shop.Packs, shop.Demands);
            return allocation.Packs.All(rest =>
            {
                var takes = allocation.Takes.Where(take => take.Pack == rest.Before.Id).ToList();
                double taken = takes.Sum(take => take.Volume.Millilitres);
                double strip = takes.Sum(take => take.Strip.Millimetres);
                return Math.Abs(rest.Before.Left.Millilitres - rest.After.Left.Millilitres - taken) < 1e-5
                    && Math.Abs(rest.Before.StripLeft.Millimetres - rest.After.StripLeft.Millimetres - strip) < 1e-2
                    && rest.After.Left >= Volume.Zero && rest.After.StripLeft >= Length.Zero
                    && rest.Touched == (takes.Count > 0);
            });
        }, iter: 2000, seed: "0000000000003");

    [Fact]
    public void Each_session_gets_what_it_needs_or_a_shortage_that_says_what_is_missing() =>
        AnyShop.Sample(shop =>
        {
            var allocation = Allocate(shop.Packs, shop.Demands);
            return shop.Demands.All(demand =>
            {
                var takes = allocation.Takes.Where(take => take.Demand == demand.Id).ToList();
                var shortage = allocation.Shortages.SingleOrDefault(s => s.Demand == demand.Id);
                if (!demand.Pieces.IsEmpty)
                    return takes.Sum(take => take.Pieces.Length) + (shortage?.Pieces.Length ?? 0) == demand.Pieces.Length;

                double onTheCar = takes.Sum(take => take.OnTheCar.Millilitres);
                return shortage is null
                    ? Math.Abs(onTheCar - demand.Volume.Millilitres) < 1e-5
                    : onTheCar < demand.Volume.Millilitres + 1e-5;
            });
        }, iter: 2000, seed: "0000000000004");

    [Fact]
    public void Nothing_is_taken_from_a_pack_that_may_not_be_used_then() =>
        AnyShop.Sample(shop =>
        {
            var allocation = Allocate(shop.Packs, shop.Demands);
            var demands = shop.Demands.ToDictionary(demand => demand.Id);
            return allocation.Takes.All(take =>
            {
                var pack = allocation.Packs.Single(rest => rest.Before.Id == take.Pack);
                var use = demands[take.Demand].PlannedUse;
                return pack.Before.Material == demands[take.Demand].Material
                    && (pack.Before.Expires is not { } day || use.InZone(Berlin).Date <= day)
                    && pack.Usable.Covers(use)
                    && pack.Before.OnHold is null && !pack.Before.PartnerMissing;
            });
        }, iter: 2000, seed: "0000000000005");

    [Fact]
    public void Another_pack_never_makes_more_missing() =>
        Gen.Select(AnyShop, AnyPack).Sample((shop, extra) =>
        {
            var before = Allocate(shop.Packs, shop.Demands);
            var after = Allocate([.. shop.Packs, extra with { Id = new PackId("X") }], shop.Demands);
            return Kinds.All(kind => shop.Packs.Count(pack => pack.Material == kind.Id) >= PackAllocation.PacksTriedInFull
                || Missing(after, kind) <= Missing(before, kind) + 1e-5);
        }, iter: 2000, seed: "0000000000006");

    [Fact]
    public void The_order_of_packs_and_sessions_in_the_file_does_not_change_what_is_missing() =>
        AnyShop.Sample(shop =>
        {
            var straight = Allocate(shop.Packs, shop.Demands);
            var turned = Allocate(shop.Packs.Reverse(), shop.Demands);
            return Kinds.All(kind => Math.Abs(Missing(turned, kind) - Missing(straight, kind)) < 1e-5);
        }, iter: 1000, seed: "0000000000007");

    private static double Missing(PackAllocation allocation, DataSheet sheet) => allocation.Shortages
        .Where(shortage => shortage.Material == sheet.Id)
        .Sum(shortage => shortage.Volume.Millilitres + shortage.Pieces.Sum(piece => piece.Millimetres));
}
