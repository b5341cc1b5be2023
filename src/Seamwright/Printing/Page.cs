using Seamwright.Program.Texts;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace Seamwright.Program.Printing;

/// <summary>The page written to: lines of runs, titles, paragraphs. Nothing else knows whether it is a terminal or a file.</summary>
public sealed class Page
{
    private readonly TextWriter _output;
    private readonly IAnsiConsole? _console;

    /// <summary>A page on some output.</summary>
    public Page(TextWriter output, Screen screen, Formatter format)
    {
        _output = output;
        Screen = screen;
        Format = format;
        Marks = screen.Unicode ? Marks.Drawn : Marks.Typed;
        if (!screen.Colour)
            return;

        _console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = AnsiSupport.Yes,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(output),
        });
        _console.Profile.Width = screen.Width;
    }

    /// <summary>What the output can show.</summary>
    public Screen Screen { get; }

    /// <summary>Columns of a line.</summary>
    public int Width => Screen.Width;

    /// <summary>Puts facts into words.</summary>
    public Formatter Format { get; }

    /// <summary>Signs to draw with.</summary>
    public Marks Marks { get; }

    /// <summary>A text as this page can show it: one line, no control characters, ASCII where nothing else can be shown.</summary>
    public string Fit(string text) => Screen.Unicode ? Letters.Harmless(text) : Letters.Ascii(Letters.Harmless(text));

    /// <summary>A sentence by key.</summary>
    public string Say(string key, params ReadOnlySpan<object> facts) => Format.Say(key, facts);

    /// <summary>An empty line.</summary>
    public void Gap() => _output.WriteLine();

    /// <summary>One line; nothing is wrapped.</summary>
    public void Line(params ReadOnlySpan<Run> runs)
    {
        if (_console is null)
        {
            var line = new System.Text.StringBuilder(Width);
            foreach (var run in runs)
                line.Append(Fit(run.Text));
            _output.WriteLine(line.ToString().TrimEnd());
            return;
        }

        var segments = new List<Segment>(runs.Length + 1);
        foreach (var run in runs)
            segments.Add(new Segment(Fit(run.Text), StyleOf(run.Tone)));
        segments.Add(Segment.LineBreak);
        _console.Write(new StyledLine(segments));
    }

    /// <summary>The title of a section, after an empty line.</summary>
    public void Title(string text)
    {
        Gap();
        string title = Fit(text);
        int rest = Math.Max(0, Width - Letters.Width(title) - 1);
        Line(new Run(title, Tone.Title), new Run($" {new string(Marks.Rule, rest)}", Tone.Faint));
    }

    /// <summary>A paragraph, wrapped; the first line after a lead, the others under it.</summary>
    /// <param name="text">The text.</param>
    /// <param name="lead">What stands before the first line, for example a bullet.</param>
    /// <param name="tone">Meaning of the text.</param>
    /// <param name="leadTone">Meaning of the lead.</param>
    public void Paragraph(string text, string lead = "", Tone tone = Tone.Plain, Tone leadTone = Tone.Plain)
    {
        string head = Fit(lead);
        int indent = Letters.Width(head);
        foreach (string line in Letters.Wrap(Fit(text), Math.Max(20, Width - indent)))
        {
            Line(new Run(head, leadTone), new Run(line, tone));
            head = new string(' ', indent);
        }
    }

    /// <summary>A bulleted paragraph.</summary>
    public void Bullet(string text, Tone tone = Tone.Plain) => Paragraph(text, $" {Marks.Bullet} ", tone, Tone.Faint);

    // Blue, violet and weight: readable on dark and light, and not the colours of a traffic light.
    private static Style StyleOf(Tone tone) => tone switch
    {
        Tone.Faint => new Style(decoration: Decoration.Dim),
        Tone.Strong => new Style(decoration: Decoration.Bold),
        Tone.Title => new Style(Color.SteelBlue1, decoration: Decoration.Bold),
        Tone.Answer => new Style(Color.DeepSkyBlue1, decoration: Decoration.Bold),
        Tone.Alert => new Style(Color.Orchid, decoration: Decoration.Bold),
        _ => Style.Plain,
    };

    private sealed class StyledLine(List<Segment> segments) : Renderable
    {
        protected override Measurement Measure(RenderOptions options, int maxWidth) => new(maxWidth, maxWidth);

        protected override IEnumerable<Segment> Render(RenderOptions options, int maxWidth) => segments;
    }
}
