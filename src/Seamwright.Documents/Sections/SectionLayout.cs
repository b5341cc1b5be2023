using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Documents.Sections;

/// <summary>A filled shape of the cut.</summary>
/// <param name="Look">Classes.</param>
/// <param name="Name">What it is, in words.</param>
/// <param name="Corners">Outline. [drawing units]</param>
/// <param name="Hatching">Degrees by which its hatching leans; null = none.</param>
public sealed record SectionPart(string Look, string Name, ImmutableArray<Spot> Corners, ImmutableArray<double> Hatching);

/// <summary>A cut through a seam laid out: metal, films and bead with their labels.</summary>
public sealed record SectionLayout
{
    private const double Margin = 12;

    /// <summary>Width of the sheet. [drawing units]</summary>
    public required double Width { get; init; }

    /// <summary>Height of cut and labels, without heading and note. [drawing units]</summary>
    public required double Height { get; init; }

    /// <summary>Parts in the order drawn.</summary>
    public required ImmutableArray<SectionPart> Parts { get; init; }

    /// <summary>A label for each part that has a name, from top to bottom.</summary>
    public required ImmutableArray<Leader> Leaders { get; init; }

    /// <summary>Ends of the bead's width, for its measure; null = no bead of a stated width.</summary>
    public required (Spot From, Spot To)? Measure { get; init; }

    /// <summary>Drawing units for a millimetre of the true part.</summary>
    public required double Scale { get; init; }

    /// <summary>How many times too thick films are drawn, ascending; one entry a kind (films, thick coatings).</summary>
    public required ImmutableArray<double> Exaggerations { get; init; }

    /// <summary>Lays a cut out.</summary>
    /// <param name="buildUp">What it meets.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public static SectionLayout Of(BuildUp buildUp, IWords words, double width)
    {
        ArgumentNullException.ThrowIfNull(buildUp);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 320);
        double cut = (width - 2 * Margin) * (width < 560 ? 0.5 : 0.6);
        var (parts, labels, scale, factors, measure) = new SectionBuilder(buildUp, words, cut).Build();

        // The cut comes upside up and begins at its own foot: it is turned over and set beside the middle of the labels.
        double top = parts.SelectMany(part => part.Corners).Max(spot => spot.Y);
        double foot = parts.SelectMany(part => part.Corners).Min(spot => spot.Y);
        double column = width - Margin - (Margin + cut + 30);
        double labelHeight = Drawing.Leaders.HeightOf(labels.Select(label => label.Text), column);
        double cutHeight = top - foot + (measure is null ? 0 : 34);
        double height = Math.Max(cutHeight, labelHeight) + 8;
        double shift = (height - cutHeight) / 2 + top;
        Spot Turn(Spot spot) => new(Margin + spot.X, shift - spot.Y);
        // The column begins as high as the uppermost film: films are then named from top to bottom as they lie.
        double highest = labels.Min(label => Turn(label.Anchor).Y);
        double middle = Math.Clamp(highest - 16 + labelHeight / 2, labelHeight / 2, height - labelHeight / 2);
        return new SectionLayout
        {
            Width = width,
            Height = height,
            Parts = [.. parts.Select(part => part with { Corners = [.. part.Corners.Select(Turn)] })],
            Leaders = Drawing.Leaders.Set(labels.Select(label => (Turn(label.Anchor), label.Text)), Margin + cut + 30, column, middle),
            Measure = measure is { } ends ? (Turn(new(ends.Left, foot - 14)), Turn(new(ends.Right, foot - 14))) : null,
            Scale = scale,
            Exaggerations = factors,
        };
    }
}
