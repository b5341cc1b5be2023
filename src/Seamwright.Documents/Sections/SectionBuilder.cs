using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Documents.Sections;

/// <summary>Builds a cut from the metal up: sheets, what lies between them, coats, bead, coats over it. Drawing units, y upwards.</summary>
internal sealed class SectionBuilder
{
    private static readonly double[] Factors = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100];
    private static readonly double[] BeadMarks = [0.62, 0.66, 0.7, 0.42, 0.36, 0.3];
    private static readonly Length Thick = Length.FromMicrometres(120);

    private readonly BuildUp _buildUp;
    private readonly IWords _words;
    private readonly double _width;
    private readonly double _scale;
    private readonly JointShape _shape;
    private readonly double _thin;
    private readonly double _thick;
    private readonly Look _look;
    private readonly List<SectionPart> _parts = [];
    private readonly List<(Spot Anchor, string Text)> _labels = [];

    public SectionBuilder(BuildUp buildUp, IWords words, double width)
    {
        _buildUp = buildUp;
        _words = words;
        _width = width;
        _look = Sized(buildUp.Look);
        double depth = buildUp.Depth?.Millimetres ?? 0;
        // The shape's own width does not hang on the thickness of its sheets, so the scale is known before they are.
        _scale = width / JointShape.Of(buildUp.Type, _look, depth, 1.2, 0.2).Width;
        Film[] films = [.. buildUp.Ground, .. buildUp.Above, .. buildUp.Between is { } between ? [between] : Array.Empty<Film>()];
        _thin = Factor(films.Where(film => film.Thickness < Thick), Math.Clamp(width / 48, 5, 8));
        _thick = Factor(films.Where(film => film.Thickness >= Thick), Math.Clamp(width / 36, 6, 11));
        double gap = buildUp.Between is { } film ? Drawn(film) / _scale : 1.2 / _scale;
        _shape = JointShape.Of(buildUp.Type, _look, depth, Math.Max(1.2, 9 / _scale), gap);
    }

    public (List<SectionPart> Parts, List<(Spot Anchor, string Text)> Labels, double Scale, ImmutableArray<double> Factors, (double Left, double Right)? Measure) Build()
    {
        var between = Scaled(_shape.Faying);
        if (_buildUp.Between is { } faying && !between.IsEmpty)
        {
            _parts.Add(new SectionPart(LookOf(faying.Kind), faying.Name, between, []));
            _labels.Add((Scaled(_shape.FayingMark), faying.Name));
        }
        foreach (var sheet in _shape.Sheets)
            Add(sheet);

        var metal = _shape.Sheets.Select(sheet => Scaled(sheet.Corners)).Append(between).Where(outline => !outline.IsEmpty).ToList();
        double foot = metal.SelectMany(outline => outline).Min(spot => spot.Y);
        var ground = Coats(Relief.Over(metal, _width, foot), _buildUp.Ground, 0);
        var surface = ground;
        (double, double)? measure = null;
        if (_buildUp.Bead is { } name && _look.Width > Length.Zero)
        {
            var bead = new BeadShape(_shape, _look.Profile, _look.Width.Millimetres * _scale, _look.Height.Millimetres * _scale, _scale);
            surface = bead.On(ground);
            var below = double.IsInfinity(_shape.BeadFloor) ? ground : ground.Each((_, y) => Math.Max(y, _shape.BeadFloor * _scale));
            _parts.Add(new SectionPart("layer layer--bead", name, below.UpTo(surface, bead.Left - 1, bead.Right + 1), []));
            // Where it is thickest, the middle left out: there the leader would hide what the seam lies on.
            double mark = BeadMarks.Select(share => bead.Left + share * (bead.Right - bead.Left)).MaxBy(x => surface.At(x) - below.At(x));
            _labels.Add((new(mark, (below.At(mark) + surface.At(mark)) / 2), name));
            if (_buildUp.Look.Width > Length.Zero)
                measure = (bead.Left, bead.Right);
        }
        Coats(surface, _buildUp.Above, _buildUp.Ground.Length);
        foreach (var sheet in _shape.Roof)
            Add(sheet);
        double[] used = [.. new[] { _thick, _thin }.Where(factor => factor > 0).Order()];
        return (_parts, _labels, _scale, [.. used], measure);
    }

    private Relief Coats(Relief surface, ImmutableArray<Film> films, int before)
    {
        double from = _shape.CoatFrom * _scale;
        double to = (_shape.CoatTo ?? _shape.Width) * _scale;
        double highest = surface.Highest;
        for (int i = 0; i < films.Length; i++)
        {
            var coated = surface.Coated(Drawn(films[i]));
            // On a wall a coat ends where the wall does.
            if (from > 0)
                coated = coated.Each((_, y) => Math.Min(y, highest));
            var outline = surface.UpTo(coated, from, to);
            _parts.Add(new SectionPart(LookOf(films[i].Kind), films[i].Name, outline, []));
            // The lower a film lies the further left it is marked: so leaders fan out in the order of the films.
            double mark = to - 9 - 13 * (_buildUp.Ground.Length + _buildUp.Above.Length - 1 - before - i);
            _labels.Add((new(mark, (surface.At(mark) + coated.At(mark)) / 2), films[i].Name));
            surface = coated;
        }
        return surface;
    }

    private void Add(SheetShape sheet)
    {
        var metal = _buildUp.Metals[Math.Min(sheet.Metal, _buildUp.Metals.Length - 1)];
        string name = _words.Say($"draw.sheet.{sheet.Part}", metal);
        // Neighbours lean different ways, as in any technical drawing; what is no steel is hatched crosswise or more widely.
        double lean = sheet.Part is SheetPart.Upper or SheetPart.Left or SheetPart.Outer or SheetPart.Bar ? 45 : -45;
        ImmutableArray<double> hatching = metal switch
        {
            Metal.Aluminium or Metal.Magnesium => [lean, -lean],
            Metal.CarbonFibre => [0, 90],
            _ => [lean],
        };
        _parts.Add(new SectionPart("sheet-metal", name, Scaled(sheet.Corners), hatching));
        _labels.Add((Scaled(sheet.Mark), name));
    }

    private double Drawn(Film film) => Math.Max(1.6, film.Thickness.Millimetres * _scale * (film.Thickness < Thick ? _thin : _thick));

    // The round factor with which the thickest of them comes nearest to a thickness that is well seen. [drawing units]
    private double Factor(IEnumerable<Film> films, double wanted)
    {
        double most = films.Select(film => film.Thickness.Millimetres).DefaultIfEmpty(0).Max();
        return most == 0 ? 0 : Factors.MinBy(factor => Math.Abs(factor * most * _scale - wanted));
    }

    private Spot Scaled(Spot spot) => new(spot.X * _scale, spot.Y * _scale);

    private ImmutableArray<Spot> Scaled(ImmutableArray<Spot> spots) => [.. spots.Select(Scaled)];

    // A dab may come without sizes: then one of the usual kind is drawn, without a measure.
    private static Look Sized(Look look)
    {
        if (look.Profile == Profile.None)
            return look;
        var width = look.Width > Length.Zero ? look.Width : Length.FromMillimetres(12);
        var height = look.Height > Length.Zero ? look.Height : look.Profile switch
        {
            Profile.HalfRound => width * 0.5,
            Profile.Fillet => width,
            Profile.Strip => Length.FromMillimetres(1),
            _ => Length.FromMillimetres(4),
        };
        return look with { Width = width, Height = height };
    }

    private static string LookOf(LayerKind kind) => kind switch
    {
        LayerKind.WeldThrough => "layer layer--weld-through",
        LayerKind.Adhesive => "layer layer--adhesive",
        LayerKind.Etch => "layer layer--etch",
        LayerKind.Epoxy => "layer layer--epoxy",
        LayerKind.Electrocoat => "layer layer--electrocoat",
        LayerKind.OldPaint => "layer layer--old-paint",
        LayerKind.Surfacer => "layer layer--surfacer",
        LayerKind.Colour => "layer layer--colour",
        LayerKind.Clear => "layer layer--clear",
        LayerKind.StoneChip => "layer layer--stone-chip",
        LayerKind.Wax => "layer layer--wax",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such film."),
    };
}
