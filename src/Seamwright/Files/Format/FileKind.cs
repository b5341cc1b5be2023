using System.Collections.Immutable;

namespace Seamwright.Files.Format;

/// <summary>A kind of file: its section, its version line and whether that line is part of the section's required keys.</summary>
/// <param name="Root">All keys of the file.</param>
/// <param name="Line">Version line.</param>
internal sealed record FileKind(Section Root, string Line)
{
    /// <summary>All kinds of files.</summary>
    public static ImmutableArray<FileKind> All { get; } =
    [
        new(RepairFormat.File, RepairFormat.Line),
        new(ShopFormat.File, ShopFormat.Line),
        new(MaterialsFormat.File, MaterialsFormat.Line),
        new(StockFormat.File, StockFormat.Line),
        new(ClimateFormat.File, ClimateFormat.Line),
        new(WorkLogFormat.File, WorkLogFormat.Line),
    ];

    /// <summary>Sections of the file in reading order, the file itself first; inner files are not entered.</summary>
    public ImmutableArray<Section> Sections(bool withInnerFiles)
    {
        var found = new List<Section> { Root };
        for (int i = 0; i < found.Count; i++)
        {
            foreach (var key in found[i].Keys)
                Collect(key.Kind, found, withInnerFiles);
        }

        return [.. found];
    }

    private static void Collect(Kind kind, List<Section> found, bool withInnerFiles)
    {
        switch (kind)
        {
            case Kind.Map map:
                Add(map.Section, found, withInnerFiles);
                break;
            case Kind.MapList list:
                Add(list.Section, found, withInnerFiles);
                break;
            case Kind.FileList list:
                Add(list.Section, found, withInnerFiles);
                break;
            case Kind.Either either:
                foreach (var form in either.Forms)
                    Collect(form, found, withInnerFiles);
                break;
            default:
                break;
        }
    }

    private static void Add(Section section, List<Section> found, bool withInnerFiles)
    {
        bool isFile = section.Keys.Any(key => key.Kind is Kind.Header);
        if (!found.Contains(section) && (withInnerFiles || !isFile))
            found.Add(section);
    }
}
