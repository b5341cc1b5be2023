using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using Seamwright.Air;
using Seamwright.Documents.Charts;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Documents.Sections;
using Seamwright.Documents.Timelines;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Program.Drawings;

/// <summary>A drawing in the two widths that serve a desk and a phone.</summary>
/// <param name="Name">Name of its file without ending, and its anchor in the page.</param>
/// <param name="Place">Joint it shows; null = the whole repair.</param>
/// <param name="Wide">For a desk screen, and by itself.</param>
/// <param name="Narrow">For a phone.</param>
public sealed record Drawn(string Name, PlaceId? Place, IDrawing Wide, IDrawing Narrow);

/// <summary>All drawings of a repair.</summary>
public sealed record DrawingSet
{
    private const double Phone = 344;

    /// <summary>The map, its seams leading to their sections in the same page.</summary>
    public required Drawn Map { get; init; }

    /// <summary>The map as a file of its own, its seams leading to the files of their sections.</summary>
    public required IDrawing MapFile { get; init; }

    /// <summary>The timeline; null without a plan.</summary>
    public required Drawn? Timeline { get; init; }

    /// <summary>Rows of the timeline's table.</summary>
    public required ImmutableArray<TimelineRow> Rows { get; init; }

    /// <summary>Air and panel over the time of the plan; null without a plan.</summary>
    public required Drawn? Air { get; init; }

    /// <summary>A section for each joint, in the repair's order.</summary>
    public required ImmutableArray<Drawn> Sections { get; init; }

    /// <summary>A cure curve for each session that cures in the air of the shop, in the plan's order.</summary>
    public required ImmutableArray<Drawn> Cures { get; init; }

    /// <summary>Every drawing with its file name.</summary>
    public IEnumerable<(string File, IDrawing Drawing)> Files =>
        new[] { Timeline, Air }.OfType<Drawn>().Concat(Sections).Concat(Cures).Select(drawn => ($"{drawn.Name}.svg", drawn.Wide))
            .Prepend(($"{Map.Name}.svg", MapFile));

    /// <summary>Draws a repair.</summary>
    /// <param name="input">Everything it is made from.</param>
    /// <param name="plan">Its plan; null where none is possible.</param>
    /// <param name="at">Moment whose states the map shows.</param>
    /// <param name="format">Formatter of the reader.</param>
    public static DrawingSet Of(RepairInput input, Plan? plan, Instant at, Formatter format)
    {
        var words = new DrawingWords(format);
        var repair = input.Repair;
        var names = Names(repair);
        var buildUps = new BuildUps(repair, input.Sheets, plan, words);
        SeamMapDrawing Map(double width, Func<PlaceId, string?> link) => new(repair, plan, words, new MapOptions { Width = width, At = at, Link = link });
        string? InPage(PlaceId id) => names.TryGetValue(id, out string? name) ? $"#{name}" : null;
        string? InFolder(PlaceId id) => names.TryGetValue(id, out string? name) ? $"{name}.svg" : null;
        var timeline = plan is null ? null : new TimelineDrawing(input, plan, words);
        return new DrawingSet
        {
            Map = new("map", null, Map(900, InPage), Map(Phone, InPage)),
            MapFile = Map(900, InFolder),
            Timeline = plan is null ? null : new("timeline", null, timeline!, new TimelineDrawing(input, plan, words, Phone)),
            Rows = timeline?.Layout.Rows ?? [],
            Air = plan is null ? null : Weather(input, plan, words),
            Sections = [.. repair.Joints.Select(joint => Section(joint, names[joint.Id], buildUps, words))],
            Cures = plan is null ? [] : [.. CuresOf(input, plan, names, words)],
        };
    }

    /// <summary>The timeline by itself; null without a plan.</summary>
    /// <param name="input">Everything it is made from.</param>
    /// <param name="plan">Its plan; null where none is possible.</param>
    /// <param name="format">Formatter of the reader.</param>
    public static Drawn? TimelineOf(RepairInput input, Plan? plan, Formatter format)
    {
        var words = new DrawingWords(format);
        return plan is null ? null : new("timeline", null, new TimelineDrawing(input, plan, words), new TimelineDrawing(input, plan, words, Phone));
    }

    /// <summary>The section of one joint by itself.</summary>
    /// <param name="input">Everything it is made from.</param>
    /// <param name="plan">Its plan; null where none is possible.</param>
    /// <param name="joint">A joint of the repair.</param>
    /// <param name="format">Formatter of the reader.</param>
    public static Drawn SectionOf(RepairInput input, Plan? plan, Joint joint, Formatter format)
    {
        var words = new DrawingWords(format);
        return Section(joint, Names(input.Repair)[joint.Id], new BuildUps(input.Repair, input.Sheets, plan, words), words);
    }

    /// <summary>What a joint feels: the shop's air, and the panel as it was read.</summary>
    public static PanelClimate Panel(RepairInput input) => input.Repair.Panel is { } reading
        ? PanelClimate.FromReading(input.Climate, reading.At, reading.Temperature, input.Shop.PanelTimeConstant)
        : PanelClimate.FollowingAir(input.Climate);

    private static Drawn Section(Joint joint, string name, BuildUps buildUps, DrawingWords words)
    {
        string title = $"{joint.Id} {joint.Name}";
        var buildUp = buildUps.Of(joint);
        return new(name, joint.Id, new SectionDrawing(title, buildUp, words, 640), new SectionDrawing(title, buildUp, words, Phone));
    }

    private static Drawn Weather(RepairInput input, Plan plan, DrawingWords words)
    {
        var from = input.Repair.Now;
        var to = Instant.Max(plan.Slot, plan.ReadyForPaint) + Duration.FromHours(2);
        ClimateDrawing Draw(double width) => new(Panel(input), from, to, Outlooks.Of(input.Climate, from), words, width);
        return new("air", null, Draw(900), Draw(Phone));
    }

    // One curve for all joints of a session that need the same. Under a lamp the panel is not what the shop's air makes it: such a curve
    // would show the wrong cure.
    private static IEnumerable<Drawn> CuresOf(RepairInput input, Plan plan, Dictionary<PlaceId, string> names, DrawingWords words)
    {
        var joints = input.Repair.Joints.ToDictionary(joint => joint.Id);
        var applied = plan.Joints.Where(decision => decision is { Material: not null, Applied: not null, Heated: false } && joints.ContainsKey(decision.Joint))
            .Select(decision => (Joint: joints[decision.Joint], Sheet: input.Sheets.First(sheet => sheet.Id == decision.Material), decision.Applied!.Value.End))
            .Where(seam => seam.Sheet.Milestones.Any(milestone => milestone.Needed > Units.ReferenceTime.Zero))
            .GroupBy(seam => (seam.Sheet, seam.End, Depth: DepthOf(seam.Sheet, seam.Joint)));
        foreach (var group in applied)
        {
            var cure = new CureCase(
                group.Key.Sheet, Panel(input), group.Key.End, group.Key.Depth, input.Repair.Now, words.Word(group.Select(seam => (object)seam.Joint.Id).ToList()), []);
            var first = group.First().Joint;
            yield return new($"cure{names[first.Id]["section".Length..]}", first.Id, new CureDrawing(cure, words, 640), new CureDrawing(cure, words, Phone));
        }
    }

    private static Units.Length? DepthOf(Materials.DataSheet sheet, Joint joint)
    {
        var depth = joint.Depth ?? joint.Look.Height;
        return sheet.PaintNeedsCuredThrough && depth > Units.Length.Zero ? depth : null;
    }

    // A short name may hold letters that a file name must not; two that come out alike are told apart by a number.
    private static Dictionary<PlaceId, string> Names(Repair repair)
    {
        var names = new Dictionary<PlaceId, string>();
        foreach (var id in repair.Joints.Select(joint => joint.Id))
        {
            string stem = $"section-{string.Concat(id.Value.Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' ? c : '_'))}";
            string name = stem;
            for (int number = 2; names.Values.Any(other => other.Equals(name, StringComparison.OrdinalIgnoreCase)); number++)
                name = $"{stem}-{number.ToString(CultureInfo.InvariantCulture)}";
            names[id] = name;
        }
        return names;
    }
}
