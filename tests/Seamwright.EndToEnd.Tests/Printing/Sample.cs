using System.Collections.Immutable;
using NodaTime;
using Seamwright.Costs;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Files;
using Seamwright.Materials;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.EndToEnd.Tests.Printing;

/// <summary>A plan written by hand for the evening slot: what is printed must not depend on what the planner finds today.</summary>
internal static class Sample
{
    public static readonly Sentences Texts = Sentences.Load("en");

    private static readonly Lazy<RepairInput> ReadInput = new(() => RepairReader.Read(Path.Combine(Repository.Examples, "evening-slot")).Input!);

    public static RepairInput Input => ReadInput.Value;

    public static Plan Plan { get; } = new()
    {
        Id = "0f1e2d3c4b5a6978",
        InputHash = "00",
        Seed = 1,
        EngineVersion = "1",
        Aim = PlanAim.Recommended,
        ProvenOptimal = true,
        LowerBound = Money(361.005m),
        Joints =
        [
            new JointPlan
            {
                Joint = new("J1"),
                Material = new("MSS"),
                Amount = Volume.FromMillilitres(55.2),
                Applied = new Interval(At(15, 40), At(15, 52)),
                Ready = At(17, 29),
                ApplyBy = At(16, 23),
                Why = [Reason.Of("not-concerned")],
                RunnerUp = new("MS1"),
                Answers =
                [
                    new(new("MSS"), VerdictKind.Fine, [new(VerdictKind.Fine, "look.profile", Reason.Of("wanted-open", new PlaceId("J1")), "sheet MSS")], Preparation.AsIs,
                        new Consequence(At(17, 39), Duration.Zero, Money(0), At(18, 0), true)),
                    new(new("PU1"), VerdictKind.Refused, [new(VerdictKind.Refused, "procedure.forbids", Reason.Of("procedure-forbids", new MaterialId("PU1"), "no polyurethane"), "maker's procedure")], Preparation.AsIs, null),
                    new(new("MS1"), VerdictKind.Fine, [], Preparation.AsIs, new Consequence(At(18, 19), Duration.FromMinutes(40), Money(12.345m), null, true)),
                ],
            },
            new JointPlan { Joint = new("J5"), Why = [], },
        ],
        Steps =
        [
            new Step { Id = "S01", Kind = StepKind.Seal, Places = [new("J1")], Person = "technician", Start = At(15, 40), End = At(15, 52), Material = new("MSS"), Amount = Volume.FromMillilitres(55.2) },
            new Step { Id = "S02", Kind = StepKind.SealerCure, Places = [new("J1")], Start = At(15, 52), End = At(17, 29), Material = new("MSS") },
            new Step { Id = "S03", Kind = StepKind.Lamp, Places = [new("J1")], Start = At(15, 55), End = At(16, 25), HeatTo = Temperature.FromCelsius(45) },
            new Step { Id = "S04", Kind = StepKind.Paint, Person = "painter", Start = At(18, 0), End = At(20, 0) },
            new Step { Id = "S05", Kind = StepKind.Refit, Person = "helper", Start = At(31, 30), End = At(33, 0) },
        ],
        PackUses = [new("S01", new("B"), new("MSS"), "L-311", Volume.FromMillilitres(55.2), Length.Zero, 0, Volume.FromMillilitres(234.8), Length.Zero, false, At(24, 0))],
        Orders = [new(new("SL2"), 1, Money(36), At(15, 10), At(16, 10), [new("J2")]), new(null, 2, Money(4.4m), At(15, 10), At(16, 10), [])],
        Mixes = [new("S01", new("P-EP"), Volume.FromMillilitres(100), Volume.FromMillilitres(80), Volume.FromMillilitres(20), Mass.FromGrams(104), Mass.FromGrams(19.5), At(19, 0))],
        ReadyForPaint = At(17, 39),
        Slot = At(18, 0),
        ReadyForDelivery = At(33, 0),
        HeldUpBy = [new(new("J1"), At(15, 40), At(15, 52), Reason.Of("step.Seal", "J1", "J1"))],
        Cost = new CostBreakdown { Labour = Money(296.8m), Material = Money(64.205m) },
        Warnings = [Reason.Of("procedure-forbids-nothing", new MaterialId("MSS"))],
        Cautions = [],
    };

    public static PlanAnswer Answer { get; } = new()
    {
        Recommended = Plan,
        Cheapest = Plan with { Id = "1", Aim = PlanAim.Cheapest, Cost = new CostBreakdown { Labour = Money(250) }, ReadyForPaint = At(35, 0), Slot = At(37, 0) },
        Fastest = Plan with { Aim = PlanAim.Fastest },
        Tradeoffs = [new(TradeoffKind.Delivery, Money(45.4m), Money(280), Money(286), At(37, 0)), new(TradeoffKind.Lamp, Money(17.5m), Money(240), Money(100), null)],
    };

    public static PlanAnswer NoPlan { get; } = new()
    {
        Conflicts = [new([new("slots", null, Reason.Of("not-concerned")), new("J1/look", new("J1"), Reason.Of("procedure-forbids", new MaterialId("PU1"), "no polyurethane"))])],
    };

    /// <summary>A clock time of Tuesday 12 January 2027 in the shop's zone; hours above 23 lie on the next day.</summary>
    public static Instant At(int hour, int minute) =>
        new LocalDateTime(2027, 1, 12, 0, 0).PlusHours(hour).PlusMinutes(minute).InZoneStrictly(DateTimeZoneProviders.Tzdb["Europe/Vienna"]).ToInstant();

    public static Formatter Format(Shops.UnitSystem? units = null) => new(Texts, Notation.Of(Input.Shop, Input.Repair.Now, units));

    public static string[] Printed(PlanAnswer answer, Screen screen, Shops.UnitSystem? units = null) => Printed(page => PlanPage.Write(page, Input, answer), screen, units);

    public static string[] Printed(Action<Page> write, Screen screen, Shops.UnitSystem? units = null)
    {
        using var output = new StringWriter { NewLine = "\n" };
        write(new Page(output, screen, Format(units)));
        return output.ToString().TrimEnd('\n').Split('\n');
    }

    private static Money Money(decimal amount) => new(amount, "CU");
}
