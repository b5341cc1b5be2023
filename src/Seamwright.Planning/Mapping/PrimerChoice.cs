using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;

namespace Seamwright.Planning.Mapping;

/// <summary>Which primers a bare joint may get here.</summary>
internal static class PrimerChoice
{
    /// <summary>
    /// Primers proper (no etch, no weld-through) of which a pack can be used now, the shop's usual one first; where there is none, the usual
    /// one or the first sheet, to be ordered.
    /// </summary>
    public static ImmutableArray<DataSheet> For(PlanningCase planning)
    {
        var places = Places(planning.Repair).ToList();
        var primers = planning.Input.Sheets.Where(sheet => sheet.Use == MaterialUse.Primer)
            .Where(sheet => places.Count == 0 || places.Exists(place => MayGo(sheet, place.On, place.Metals, place.Torsion)))
            .OrderBy(sheet => sheet.Id == planning.Shop.UsualPrimer ? 0 : 1)
            .ToList();
        var stocked = primers.Where(IsStocked).ToImmutableArray();
        return stocked.IsEmpty ? [.. primers.Take(1)] : stocked;

        static IEnumerable<(SurfaceKind On, ImmutableArray<Metal> Metals, bool Torsion)> Places(Repair repair) =>
            repair.Joints.Where(joint => !joint.IsBare).Select(joint => (PreparationRoutes.BareSurface(joint), joint.Metals, joint.IsTorsion))
                .Concat(repair.BareAreas.Select(area => (BareSurface(area.Metal), ImmutableArray.Create(area.Metal), false)))
                .Concat(repair.Bonds.Where(bond => bond.RePrime).Select(bond => (BareSurface(bond.Metals[0]), bond.Metals, false)));

        bool IsStocked(DataSheet sheet) => planning.Input.Stock.Packs.Any(pack =>
            pack.Material == sheet.Id && Verdicts.MayBeUsed(PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, looseNozzles: 1)));
    }

    /// <summary>Whether a primer may go on the bare metal of a joint, a bond's edge or an area of this repair.</summary>
    public static bool MayGo(DataSheet primer, Repair repair, PlaceId place)
    {
        if (repair.Joints.FirstOrDefault(joint => joint.Id == place) is { } joint)
            return MayGo(primer, PreparationRoutes.BareSurface(joint), joint.Metals, joint.IsTorsion);
        if (repair.BareAreas.FirstOrDefault(area => area.Id == place) is { } area)
            return MayGo(primer, BareSurface(area.Metal), [area.Metal], torsion: false);
        return repair.Bonds.FirstOrDefault(bond => bond.Id == place) is not { } bond || MayGo(primer, BareSurface(bond.Metals[0]), bond.Metals, torsion: false);
    }

    private static bool MayGo(DataSheet primer, SurfaceKind on, ImmutableArray<Metal> metals, bool torsion) =>
        Verdicts.MayBeUsed(PrimerRules.Judge(new PrimerCase { Primer = primer, On = on, Metals = metals, Torsion = torsion }));

    private static SurfaceKind BareSurface(Metal metal) => metal switch
    {
        Metal.Aluminium => SurfaceKind.BareAluminium,
        Metal.ZincCoatedSteel => SurfaceKind.ZincCoatedSteel,
        _ => SurfaceKind.BareSteel,
    };
}
