using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;

namespace Seamwright.Suitability;

/// <summary>Surfaces: what a coat makes of them, and which of them a material really meets.</summary>
public static class SurfaceFacts
{
    /// <summary>The surface that a cured coat of this primer leaves.</summary>
    public static SurfaceKind LeftBy(DataSheet primer) => primer.Use switch
    {
        MaterialUse.EtchPrimer => SurfaceKind.EtchPrimer,
        MaterialUse.WeldThroughPrimer => SurfaceKind.WeldThroughPrimer,
        _ => primer.Chemistry switch
        {
            Chemistry.TwoPartEpoxy => SurfaceKind.EpoxyPrimer,
            Chemistry.AcidEtch => SurfaceKind.EtchPrimer,
            Chemistry.ZincRich => SurfaceKind.WeldThroughPrimer,
            _ => SurfaceKind.UrethanePrimer,
        },
    };

    /// <summary>True for bare metal; sound zinc counts as bare, it needs primer.</summary>
    public static bool IsBareMetal(SurfaceKind kind) =>
        kind is SurfaceKind.BareSteel or SurfaceKind.ZincCoatedSteel or SurfaceKind.BareAluminium;

    /// <summary>True for a coat that carries sealer in a joint that twists; etch and weld-through primer do not.</summary>
    public static bool IsPrimed(SurfaceKind kind) =>
        kind is SurfaceKind.EpoxyPrimer or SurfaceKind.UrethanePrimer or SurfaceKind.ElectroCoat or SurfaceKind.SoundPaint;

    /// <summary>Whether aluminium is one of the metals.</summary>
    public static bool HasAluminium(ImmutableArray<Metal> metals) => metals.Contains(Metal.Aluminium);

    /// <summary>
    /// The bare surfaces a material meets on a joint whose surface is bare: the stated one, and bare aluminium too where one of the
    /// panels is aluminium. "Bare steel: yes" on a sheet says nothing of aluminium. Ascending, one or two.
    /// </summary>
    public static ImmutableArray<SurfaceKind> BareKinds(SurfaceKind stated, ImmutableArray<Metal> metals) =>
        stated != SurfaceKind.BareAluminium && HasAluminium(metals) ? [stated, SurfaceKind.BareAluminium] : [stated];

    /// <summary>
    /// What a sheet says of a surface: true, false, or null where it is silent. A sheet silent on sound zinc is read as it speaks of bare steel.
    /// </summary>
    public static bool? Statement(DataSheet sheet, SurfaceKind kind)
    {
        if (sheet.Surfaces.TryGetValue(kind, out bool allowed))
            return allowed;

        return kind == SurfaceKind.ZincCoatedSteel && sheet.Surfaces.TryGetValue(SurfaceKind.BareSteel, out bool steel) ? steel : null;
    }
}
