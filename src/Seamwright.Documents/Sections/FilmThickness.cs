using Seamwright.Units;

namespace Seamwright.Documents.Sections;

/// <summary>
/// Film thickness drawn where the sheet states none. Only the picture uses it: no amount, time or verdict does, and it is never written
/// beside the drawing as a figure of the material.
/// </summary>
public static class FilmThickness
{
    /// <summary>Thickness for a kind of film.</summary>
    /// <remarks>
    /// Electrocoat 15 to 33 µm (automotive trade articles); etch primer 4 to 13 µm (trade article; SSPC-Paint 27); surfacer 40 to 100 µm
    /// (a data sheet of a two-part urethane surfacer); others common practice, no source.
    /// </remarks>
    public static Length Of(LayerKind kind) => Length.FromMicrometres(kind switch
    {
        LayerKind.WeldThrough => 20,
        LayerKind.Adhesive => 200,
        LayerKind.Etch => 10,
        LayerKind.Epoxy => 50,
        LayerKind.Electrocoat => 20,
        LayerKind.OldPaint => 100,
        LayerKind.Surfacer => 60,
        LayerKind.Colour => 20,
        LayerKind.Clear => 45,
        LayerKind.StoneChip => 300,
        LayerKind.Wax => 45,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such film."),
    });

    /// <summary>How many times thicker than true a film is drawn, so that thin ones are seen and thick ones do not hide the seam.</summary>
    public static double Exaggeration(Length thickness) => thickness.Micrometres < 120 ? 40 : 8;
}
