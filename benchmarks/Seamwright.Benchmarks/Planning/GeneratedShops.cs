using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Benchmarks.Planning;

/// <summary>
/// A busy week of an invented shop, made from a seed: vehicles of twelve joints with three or more materials that may go on each, five people
/// with different skills and shifts, two bays a person, one booth whose slots everybody wants, two lamps, seven days on five-minute starts.
/// </summary>
internal static class GeneratedShops
{
    public const int JointCount = 12;

    private static readonly ImmutableArray<Profile> Looks = [Profile.HalfRound, Profile.Brushed, Profile.Fillet, Profile.SkipBrushed];

    /// <param name="example">Sheets, work times and air.</param>
    /// <param name="seed">Equal seeds give equal weeks.</param>
    /// <param name="count">Vehicles; the days grow with them, so that the shop is about equally busy.</param>
    public static ImmutableArray<RepairInput> Week(RepairInput example, int seed, int count)
    {
        var random = new Random(seed);
        var monday = new LocalDate(2027, 3, 1);
        var zone = example.Shop.Zone;
        var now = Moment(monday, new LocalTime(7, 30), zone);
        int days = Math.Max(7, count * 7 / 30);
        ImmutableArray<Instant> slots =
        [
            .. Enumerable.Range(0, days).Select(monday.PlusDays).Where(day => day.DayOfWeek != IsoDayOfWeek.Sunday)
                .SelectMany(day => Enumerable.Range(0, 6).Select(turn => Moment(day, new LocalTime(7, 0).PlusMinutes(130 * turn), zone))),
        ];
        var shop = Shop(example.Shop);
        var stock = Plenty(example, count);
        return [.. Enumerable.Range(0, count).Select(index => new RepairInput(
            Vehicle(random, index, now, slots, days, count), shop, example.Sheets, stock, example.Climate, $"week-{seed}-{index}"))];
    }

    private static Repair Vehicle(Random random, int index, Instant now, ImmutableArray<Instant> slots, int days, int count)
    {
        // Vehicles come in evenly over the first two thirds of the days, most of them in the morning.
        var arrives = now + Duration.FromDays(index * days * 2 / 3 / count) + Duration.FromMinutes(15 * random.Next(0, 16));
        var joints = Enumerable.Range(1, JointCount).Select(number => Joint(random, number, now)).ToImmutableArray();
        var offered = slots.Where(slot => slot >= arrives + Duration.FromHours(3)).ToImmutableArray();
        return new Repair
        {
            Id = $"vehicle-{index + 1:00}",
            Name = $"Vehicle {index + 1}",
            Now = now,
            Arrives = arrives,
            Promise = arrives + Duration.FromHours(24 + random.Next(0, 36)),
            PaintSlots = offered,
            Joints = joints,
        };
    }

    private static Joint Joint(Random random, int number, Instant now)
    {
        bool primed = random.Next(3) > 0;
        return new Joint
        {
            Id = new PlaceId($"J{number}"),
            Name = $"joint {number}",
            Type = JointType.Lap,
            Length = Length.FromMillimetres(200 + (10 * random.Next(0, 100))),
            Metals = [Metal.ZincCoatedSteel],
            Position = random.Next(2) == 0 ? Position.Level : Position.Vertical,
            Look = new Look(Looks[random.Next(Looks.Length)], Length.FromMillimetres(random.Next(6, 11)), Length.FromMillimetres(random.Next(2, 5)), Visible: random.Next(2) == 0, Strict: false),
            Surface = primed
                ? new Surface(SurfaceKind.EpoxyPrimer, new MaterialId("P-EP"), now - Duration.FromHours(12))
                : new Surface(SurfaceKind.ElectroCoat, null, null),
        };
    }

    private static Shop Shop(Shop example)
    {
        string currency = example.Currency;
        return example with
        {
            Bays = 10,
            Lamps = example.Lamps! with { Count = 2, BusyUntil = null, FreeUntil = null },
            People =
            [
                Person("anna", 68, [Skill.Clean, Skill.Mask, Skill.Prime, Skill.Seal, Skill.Weld, Skill.Wax, Skill.Refit, Skill.Check], 7, 16),
                Person("bela", 64, [Skill.Clean, Skill.Mask, Skill.Prime, Skill.Seal, Skill.Weld, Skill.Refit], 8, 17),
                Person("cleo", 58, [Skill.Clean, Skill.Seal, Skill.Wax, Skill.Refit, Skill.Check], 9, 18),
                Person("dora", 42, [Skill.Clean, Skill.Mask, Skill.Wax, Skill.Refit, Skill.Check], 7, 16),
                Person("emil", 72, [Skill.Paint, Skill.Prime], 7, 20),
            ],
        };

        Person Person(string id, decimal perHour, ImmutableHashSet<Skill> skills, int from, int to) => new(
            id, "technician", skills, new Money(perHour, currency),
            [new Shift([.. Enum.GetValues<IsoDayOfWeek>().Where(day => day is not (IsoDayOfWeek.None or IsoDayOfWeek.Sunday))], new LocalTime(from, 0), new LocalTime(to, 0), [new Break(new LocalTime(12, 30), new LocalTime(13, 0))])],
            null);
    }

    private static Stock Plenty(RepairInput example, int count) => new()
    {
        Packs =
        [
            .. example.Sheets.SelectMany(sheet => Enumerable.Range(1, count).Select(number => new Pack
            {
                Id = new PackId($"{sheet.Id}-{number}"),
                Material = sheet.Id,
                Left = sheet.Pack.Content,
                StripLeft = sheet.Pack.StripLength,
            })),
        ],
        Nozzles = [new NozzleStock(12 * count, null)],
    };

    private static Instant Moment(LocalDate day, LocalTime at, DateTimeZone zone) => (day + at).InZoneLeniently(zone).ToInstant();
}
