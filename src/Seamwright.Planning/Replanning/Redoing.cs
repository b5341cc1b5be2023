using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>
/// What a failed check means for the rest: the seam or coat comes off in a work of its own, and the place is then as it was before it, or bare.
/// What follows (abrade, prime, seal) is planned as for any other place.
/// </summary>
internal static class Redoing
{
    /// <summary>Name of the work that takes off what failed.</summary>
    public static PlaceId OperationId(PlaceId place) => new($"redo-{place}");

    /// <summary>The repair with the failed place open again.</summary>
    public static Repair Begin(Repair repair, Shop shop, LogEntry.Failed failure)
    {
        var redo = OperationId(failure.Place);
        bool toMetal = failure.DownTo == TakenOff.Metal;
        var operation = new Operation { Id = redo, TakesOff = failure.Place, Name = "", Time = Duration.FromMinutes(5), Skill = Skill.Clean };
        if (repair.Joints.FirstOrDefault(joint => joint.Id == failure.Place) is { } joint)
        {
            operation = operation with { Name = joint.Name, Time = Whole(PreparationRoutes.StripTime(joint, shop.Times)), Stage = joint.Stage };
            var surface = toMetal ? new Surface(PreparationRoutes.BareSurface(joint), null, null) : joint.Surface;
            repair = repair with { Joints = repair.Joints.Replace(joint, joint with { Surface = surface, After = Once(joint.After, redo) }) };
        }
        else if (repair.BareAreas.FirstOrDefault(area => area.Id == failure.Place) is { } area)
        {
            operation = operation with { Name = area.Name, Time = Whole(shop.Times.AbradePerSquareMetre * area.Area.SquareMetres * 2), Stage = area.Stage };
            var surface = toMetal ? new Surface(BareOf(area.Metal), null, null) : area.Surface;
            repair = repair with { BareAreas = repair.BareAreas.Replace(area, area with { Surface = surface, After = Once(area.After, redo) }) };
        }
        return repair with { Operations = [.. repair.Operations.Where(known => known.Id != redo), operation] };
    }

    public static SurfaceKind BareOf(Metal metal) => metal switch
    {
        Metal.Aluminium => SurfaceKind.BareAluminium,
        Metal.ZincCoatedSteel => SurfaceKind.ZincCoatedSteel,
        _ => SurfaceKind.BareSteel,
    };

    private static ImmutableArray<PlaceId> Once(ImmutableArray<PlaceId> after, PlaceId redo) => after.Contains(redo) ? after : after.Add(redo);

    private static Duration Whole(Duration time) => Duration.FromMinutes(Math.Max(5, Math.Ceiling(time.TotalMinutes - 1e-9)));
}
