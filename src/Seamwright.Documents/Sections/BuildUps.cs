using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Documents.Sections;

/// <summary>Reads the build-up of a seam off its repair, and off its plan where there is one.</summary>
public sealed class BuildUps(Repair repair, ImmutableArray<DataSheet> sheets, Plan? plan, IWords words)
{
    private readonly Dictionary<MaterialId, DataSheet> _sheets = sheets.ToDictionary(sheet => sheet.Id);

    /// <summary>Build-up of a joint of the repair.</summary>
    public BuildUp Of(Joint joint)
    {
        ArgumentNullException.ThrowIfNull(joint);
        var decision = plan?.Joints.FirstOrDefault(decision => decision.Joint == joint.Id);
        return new BuildUp
        {
            Type = joint.Type,
            Metals = joint.Metals,
            Look = joint.Look,
            Depth = joint.Depth,
            Between = Between(joint),
            Ground = Ground(joint, decision),
            Bead = Bead(joint, decision),
            Above = Above(joint),
        };
    }

    // A bond that the joint waits for lies in it; welding beside it leaves weld-through primer in it, where the maker allows that.
    private Film? Between(Joint joint)
    {
        if (repair.Bonds.FirstOrDefault(bond => joint.After.Contains(bond.Id)) is { } bond)
            return Named(LayerKind.Adhesive, words.Say("draw.layer.adhesive", bond.Adhesive));
        bool welded = repair.Operations.Any(operation => operation.HotWork && operation.Near.Contains(joint.Id));
        return welded && joint.Metals.All(metal => metal is Metal.Steel or Metal.ZincCoatedSteel)
            ? Named(LayerKind.WeldThrough, words.Say("draw.layer.weld-through"))
            : null;
    }

    private ImmutableArray<Film> Ground(Joint joint, JointPlan? decision)
    {
        var films = ImmutableArray.CreateBuilder<Film>();
        var preparation = decision?.Preparation ?? (joint.Surface.IsBareMetal && !joint.IsBare ? Preparation.Prime : Preparation.AsIs);
        if (preparation != Preparation.StripAndPrime && Present(joint.Surface) is { } present)
            films.Add(present);
        if (preparation is Preparation.Prime or Preparation.StripAndPrime)
        {
            var primer = plan?.Steps.FirstOrDefault(step => step.Kind == StepKind.Prime && step.Places.Contains(joint.Id))?.Material;
            films.Add(primer is { } id && _sheets.TryGetValue(id, out var sheet) ? Coat(sheet) : Named(LayerKind.Epoxy, words.Word(MaterialUse.Primer)));
        }
        return films.ToImmutable();
    }

    private Film? Present(Surface surface)
    {
        if (surface.Material is { } id && _sheets.TryGetValue(id, out var sheet))
            return Coat(sheet);
        LayerKind? kind = surface.Kind switch
        {
            SurfaceKind.EtchPrimer => LayerKind.Etch,
            SurfaceKind.EpoxyPrimer => LayerKind.Epoxy,
            SurfaceKind.UrethanePrimer => LayerKind.Surfacer,
            SurfaceKind.WeldThroughPrimer => LayerKind.WeldThrough,
            SurfaceKind.ElectroCoat => LayerKind.Electrocoat,
            SurfaceKind.SoundPaint => LayerKind.OldPaint,
            _ => null,
        };
        return kind is { } coat ? Named(coat, words.Word(surface.Kind)) : null;
    }

    private Film Coat(DataSheet sheet)
    {
        var kind = sheet.Use switch
        {
            MaterialUse.EtchPrimer => LayerKind.Etch,
            MaterialUse.WeldThroughPrimer => LayerKind.WeldThrough,
            MaterialUse.StoneChip => LayerKind.StoneChip,
            _ => sheet.Chemistry == Chemistry.TwoPartEpoxy ? LayerKind.Epoxy : LayerKind.Surfacer,
        };
        string name = words.Say("draw.layer.material", words.Word(sheet.Use), sheet.Id);
        return sheet.Film is { } film
            ? new Film(kind, words.Say("draw.layer.thick", name, film.DryThickness), film.DryThickness)
            : Named(kind, name);
    }

    private string? Bead(Joint joint, JointPlan? decision)
    {
        if (joint.IsBare || decision is { Material: null })
            return null;
        return decision?.Material is { } id && _sheets.TryGetValue(id, out var sheet)
            ? words.Say("draw.layer.bead", sheet.Id, sheet.Name)
            : words.Say(joint.Function == JointFunction.AntiFlutter ? "draw.layer.some-anti-flutter" : "draw.layer.some-sealer");
    }

    private ImmutableArray<Film> Above(Joint joint) => joint.Above switch
    {
        LayerAbove.Paint => [Surfacer(), Colour(), Clear()],
        LayerAbove.StoneChip => [StoneChip(), Colour(), Clear()],
        LayerAbove.Wax => [Named(LayerKind.Wax, words.Word(LayerAbove.Wax))],
        _ => [],
    };

    private Film StoneChip()
    {
        var step = plan?.Steps.FirstOrDefault(step => step.Kind == StepKind.StoneChip)?.Material;
        return step is { } id && _sheets.TryGetValue(id, out var sheet) ? Coat(sheet) : Named(LayerKind.StoneChip, words.Word(LayerAbove.StoneChip));
    }

    private Film Surfacer() => Named(LayerKind.Surfacer, words.Say("draw.layer.surfacer"));

    private Film Colour() => Named(LayerKind.Colour, words.Say("draw.layer.colour"));

    private Film Clear() => Named(LayerKind.Clear, words.Say("draw.layer.clear"));

    private static Film Named(LayerKind kind, string name) => new(kind, name, FilmThickness.Of(kind));
}
