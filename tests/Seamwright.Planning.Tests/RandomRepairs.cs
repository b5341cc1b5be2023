using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Tests;

/// <summary>Small repairs by seed, made of the example shop and its sheets: the same seed gives the same repair.</summary>
internal static partial class RandomRepairs
{
    private static readonly RepairInput Example = Examples.Read("evening-slot");

    private static readonly DateTimeZone Zone = Example.Shop.Zone;

    /// <summary>Two to six joints with all that may go with them; most have a plan.</summary>
    public static RepairInput Small(int seed)
    {
        var random = new Random(seed);
        var now = At(new LocalDate(2027, 3, 1).PlusDays(random.Next(5)), random.Next(7 * 60 + 30, 16 * 60));
        var operations = random.Next(3) == 0 ? ImmutableArray.Create(Operation(random)) : [];
        var bonds = random.Next(3) == 0 ? ImmutableArray.Create(Bond(random, now)) : [];
        var joints = Enumerable.Range(1, random.Next(2, 7)).Select(number => Joint(random, number, now, bonds, operations)).ToImmutableArray();
        if (operations is [{ HotWork: true } hot])
            operations = [hot with { Near = [.. joints.Where(joint => joint.Stage != Stage.BeforeAccessCloses).Select(joint => joint.Id).Take(1)] }];
        var slots = Slots(random, now);
        var repair = new Repair
        {
            Id = $"random-{seed}",
            Name = "Random repair",
            Now = now,
            Promise = slots[0] + Duration.FromHours(random.Next(6, 30)),
            PaintSlots = slots,
            Joints = joints,
            Bonds = bonds,
            Operations = operations,
            Cavities = random.Next(3) == 0 ? [Cavity(random)] : [],
            BareAreas = random.Next(4) == 0 ? [Area(random)] : [],
            Panel = random.Next(4) == 0 ? new PanelReading(now - Duration.FromMinutes(30), Temperature.FromCelsius(random.Next(6, 17))) : null,
            VehicleTilt = random.Next(4) == 0 ? Angle.FromDegrees(4) : null,
        };
        return new RepairInput(repair, Shop(random), Example.Sheets, Stock(random, now), Climate(random, now), $"random-{seed}");
    }

    public static Instant At(LocalDate day, int minuteOfDay) => (day + LocalTime.FromMinutesSinceMidnight(minuteOfDay)).InZoneLeniently(Zone).ToInstant();

    private static Joint Joint(Random random, int number, Instant now, ImmutableArray<Bond> bonds, ImmutableArray<Operation> operations)
    {
        var look = Looks[random.Next(Looks.Length)];
        bool inner = operations is [{ ClosesAccess: true }] && random.Next(2) == 0;
        var place = new PlaceId($"J{number}");
        return new Joint
        {
            Id = place,
            Name = $"seam {number}",
            Type = look.Profile switch { Profile.Ditch => JointType.RoofDitch, Profile.Strip => JointType.Hem, _ => JointType.Lap },
            Length = Length.FromMetres(0.2 + 0.1 * random.Next(12)),
            Metals = [Metal.Steel],
            Position = look.Profile == Profile.Ditch ? Position.Level : (Position)random.Next(4),
            Look = look with { Visible = random.Next(2) == 0, Strict = random.Next(4) == 0 },
            Masked = !inner && random.Next(4) == 0,
            Surface = Surface(random, now),
            Above = inner ? LayerAbove.Wax : random.Next(5) == 0 ? LayerAbove.Nothing : LayerAbove.Paint,
            Stage = inner ? Stage.BeforeAccessCloses : random.Next(10) == 0 ? Stage.AfterPaintHeat : Stage.BeforePaint,
            After = !inner && bonds is [var bond] && random.Next(2) == 0 ? [bond.Id] : !inner && operations is [var operation] && random.Next(2) == 0 ? [operation.Id] : [],
        };
    }

    private static Look[] Looks { get; } =
    [
        Seam(Profile.HalfRound, 8, 4), Seam(Profile.HalfRound, 10, 5), Seam(Profile.Fillet, 6, 6), Seam(Profile.Brushed, 20, 1.5), Seam(Profile.SkipBrushed, 25, 1.5),
        Seam(Profile.Sprayed, 40, 1), Seam(Profile.Ditch, 12, 4), Seam(Profile.Strip, 10, 0.9), Seam(Profile.Round, 5, 4), Seam(Profile.None, 0, 0),
    ];

    private static Look Seam(Profile profile, double width, double height) =>
        new(profile, Length.FromMillimetres(width), Length.FromMillimetres(height), Visible: false, Strict: false);

    private static Surface Surface(Random random, Instant now) => random.Next(8) switch
    {
        0 or 1 => new Surface(SurfaceKind.BareSteel, null, null),
        2 => new Surface(SurfaceKind.EtchPrimer, new MaterialId("P-ET"), now - Duration.FromMinutes(random.Next(10, 2_000))),
        3 or 4 or 5 => new Surface(SurfaceKind.EpoxyPrimer, new MaterialId("P-EP"), now - Duration.FromMinutes(random.Next(10, 5_000))),
        _ => new Surface(SurfaceKind.ElectroCoat, null, null),
    };

    private static Bond Bond(Random random, Instant now) => new()
    {
        Id = new PlaceId("B1"),
        Name = "flange",
        Adhesive = new MaterialId("AD-E"),
        Length = Length.FromMetres(1 + random.Next(3)),
        Metals = [Metal.Steel],
        Closed = random.Next(2) == 0 ? now - Duration.FromMinutes(random.Next(200)) : null,
        FitTime = Duration.FromMinutes(random.Next(20, 55)),
        CleanTime = Duration.FromMinutes(15),
        RePrime = random.Next(2) == 0,
    };

    private static Operation Operation(Random random) => new()
    {
        Id = new PlaceId("O1"),
        Name = "fit and weld",
        Time = Duration.FromMinutes(random.Next(20, 120)),
        Skill = Skill.Weld,
        HotWork = random.Next(2) == 0,
        ClosesAccess = random.Next(2) == 0,
    };

    private static Cavity Cavity(Random random) => new()
    {
        Id = new PlaceId("C1"),
        Name = "closed section",
        Treatment = random.Next(2) == 0 ? CavityTreatment.Wax : CavityTreatment.FlexibleFoam,
        Volume = Volume.FromMillilitres(700),
    };

    private static BareArea Area(Random random) => new()
    {
        Id = new PlaceId("A1"),
        Name = "patch",
        Area = Units.Area.FromSquareMetres(0.1 + 0.1 * random.Next(4)),
        Metal = Metal.Steel,
        Surface = random.Next(2) == 0 ? new Surface(SurfaceKind.BareSteel, null, null) : new Surface(SurfaceKind.EpoxyPrimer, null, null),
        StoneChip = random.Next(3) == 0,
    };

    private static ImmutableArray<Instant> Slots(Random random, Instant now)
    {
        var day = now.InZone(Zone).Date;
        var slots = new SortedSet<Instant>();
        int wanted = random.Next(1, 4);
        for (int ahead = random.Next(2); slots.Count < wanted; ahead++)
        {
            var date = day.PlusDays(ahead);
            var slot = At(date, 60 * random.Next(7, 20));
            if (date.DayOfWeek != IsoDayOfWeek.Sunday && slot > now + Duration.FromHours(2))
                slots.Add(slot);
        }
        return [.. slots];
    }

    private static Shop Shop(Random random)
    {
        var shop = Example.Shop;
        var (technician, helper, painter) = (shop.People[0], shop.People[1], shop.People[2]);
        return shop with
        {
            People = random.Next(3) == 0 ? [technician, painter] : [technician, helper, painter],
            Lamps = random.Next(2) == 0 ? shop.Lamps : null,
            Supplier = random.Next(2) == 0 ? shop.Supplier : null,
        };
    }

    private static Climate Climate(Random random, Instant now)
    {
        var air = new AirState(Temperature.FromCelsius(random.Next(16, 27)), RelativeHumidity.FromFraction(0.25 + 0.05 * random.Next(9)));
        if (random.Next(2) == 0)
            return new ConstantClimate(air);
        var hours = HeatingPattern.Weekdays(new LocalTime(6, 0), new LocalTime(18, 0));
        var pattern = new HeatingPattern(Zone, hours, air.Temperature, Temperature.FromCelsius(random.Next(8, 15)), Duration.FromHours(6), Duration.FromMinutes(random.Next(2) * 60));
        return new HeatedDayClimate(pattern, now, air);
    }

    private static Stock Stock(Random random, Instant now)
    {
        var today = now.InZone(Zone).Date;
        var packs = ImmutableArray.CreateBuilder<Pack>();
        foreach (var sheet in Example.Sheets)
        {
            int count = sheet.Use == MaterialUse.Primer ? random.Next(3) : random.Next(10) < 6 ? random.Next(1, 3) : 0;
            for (int i = 0; i < count; i++)
                packs.Add(APack(random, sheet, $"{sheet.Id}-{i + 1}", today));
        }
        return new Stock { Packs = packs.ToImmutable(), Nozzles = [new NozzleStock(random.Next(8), null)] };
    }

    private static Pack APack(Random random, DataSheet sheet, string id, LocalDate today)
    {
        bool opened = !sheet.Pack.SingleUse && random.Next(4) == 0;
        double share = opened ? 0.2 + 0.1 * random.Next(8) : 1;
        return new Pack
        {
            Id = new PackId(id),
            Material = sheet.Id,
            Lot = $"L-{random.Next(900)}",
            Expires = random.Next(6) switch { 0 => today.PlusDays(random.Next(-20, 20)), 1 => null, _ => today.PlusDays(200) },
            Opened = opened ? today.PlusDays(-random.Next(20)) : null,
            Left = sheet.Pack.Content * share,
            StripLeft = sheet.Pack.StripLength * share,
        };
    }
}
