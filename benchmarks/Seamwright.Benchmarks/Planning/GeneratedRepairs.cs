using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Benchmarks.Planning;

/// <summary>
/// Repairs of fifteen joints for timing, made from a seed: several alike, or all different in length, look, position, height, masking and
/// coat. Shop, sheets and air are those of an example, planned from the morning; the first slot is some hours away, others follow.
/// </summary>
internal static class GeneratedRepairs
{
    public const int JointCount = 15;

    private static readonly ImmutableArray<Profile> Looks = [Profile.HalfRound, Profile.Brushed, Profile.Fillet, Profile.SkipBrushed];

    public static RepairInput Alike(RepairInput shop, int seed, int hoursToSlot) => With(shop, seed, kinds: 3, hoursToSlot);

    public static RepairInput Different(RepairInput shop, int seed, int hoursToSlot) => With(shop, seed, kinds: JointCount, hoursToSlot);

    private static RepairInput With(RepairInput shop, int seed, int kinds, int hoursToSlot)
    {
        var morning = shop.Repair.Now.InZone(shop.Shop.Zone).Date.At(new LocalTime(7, 30)).InZoneLeniently(shop.Shop.Zone).ToInstant();
        var random = new Random(seed);
        var models = Enumerable.Range(0, kinds).Select(index => Model(morning, random, index)).ToList();
        var joints = Enumerable.Range(0, JointCount)
            .Select(index => models[index % kinds] with { Id = new PlaceId($"J{index + 1}"), Name = $"joint {index + 1}" })
            .ToImmutableArray();
        var repair = shop.Repair with
        {
            Id = $"generated-{seed}",
            Now = morning,
            PaintSlots = [morning + Duration.FromHours(hoursToSlot), morning + Duration.FromHours(24), morning + Duration.FromHours(48)],
            Promise = morning + Duration.FromHours(54),
            Joints = joints,
            Bonds = [],
            BareAreas = [],
            Cavities = [],
            Operations = [],
            Procedure = [],
        };
        return shop with { Repair = repair, ContentHash = $"generated-{kinds}-{seed}", Stock = Plenty(shop) };
    }

    private static Joint Model(Instant morning, Random random, int index)
    {
        var profile = Looks[random.Next(Looks.Length)];
        bool primed = random.Next(3) > 0;
        return new Joint
        {
            Id = new PlaceId("J"),
            Name = "",
            Type = JointType.Lap,
            Length = Length.FromMillimetres(300 + (10 * random.Next(0, 120)) + index),
            Metals = [Metal.ZincCoatedSteel],
            Position = random.Next(2) == 0 ? Position.Level : Position.Vertical,
            Look = new Look(profile, Length.FromMillimetres(random.Next(6, 11)), Length.FromMillimetres(random.Next(2, 5)), Visible: random.Next(2) == 0, Strict: false),
            // The example's shop has a material that stands masking for these looks only.
            Masked = profile is Profile.Brushed or Profile.Fillet && random.Next(4) == 0,
            Surface = primed
                ? new Surface(SurfaceKind.EpoxyPrimer, new MaterialId("P-EP"), morning - Duration.FromHours(12))
                : new Surface(SurfaceKind.ZincCoatedSteel, null, null),
        };
    }

    /// <summary>Two sealed packs of every sheet, so that no generated repair fails for want of stock.</summary>
    private static Stock Plenty(RepairInput shop) => new()
    {
        Packs =
        [
            .. shop.Sheets.SelectMany(sheet => Enumerable.Range(1, 2).Select(number => new Pack
            {
                Id = new PackId($"{sheet.Id}-{number}"),
                Material = sheet.Id,
                Left = sheet.Pack.Content,
                StripLeft = sheet.Pack.StripLength,
            })),
        ],
        Nozzles = [new NozzleStock(12, null)],
    };
}
