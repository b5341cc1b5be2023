using NodaTime;
using Seamwright.Air;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Typed;
using Seamwright.Materials;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary>The files of <c>seamwright cure</c>: a materials file, a climate file. What cannot be read is told at once.</summary>
internal sealed class CureFiles(Terminal terminal, Formatter words)
{
    /// <summary>One sheet of a materials file; null where it cannot be had.</summary>
    public DataSheet? Sheet(string path, string name)
    {
        var files = new FileSet(new ProblemList());
        DataSheet[] sheets = files.Open(path, MaterialsFormat.File, MaterialsFormat.Line) is { } map
            ? [.. MaterialsReader.Read(map, "").Select(read => read.Sheet)]
            : [];
        if (Told(files.Problems))
            return null;
        var sheet = sheets.FirstOrDefault(sheet => sheet.Id.Value == name);
        if (sheet is null)
            terminal.Error.WriteLine(words.Say("cli.cure.no-such-material", name, sheets.Select(sheet => sheet.Id).ToList()));
        return sheet;
    }

    /// <summary>A climate file; null where it cannot be had.</summary>
    public Climate? Climate(string path, DateTimeZone zone, Instant start)
    {
        var files = new FileSet(new ProblemList());
        var climate = files.Open(path, ClimateFormat.File, ClimateFormat.Line) is { } map ? new ClimateReader(files, zone, start).Read(map) : null;
        return Told(files.Problems) ? null : climate;
    }

    private bool Told(ProblemList problems)
    {
        ProblemLines.Write(terminal.Error, words, problems.Shown());
        return problems.Count > 0;
    }
}
