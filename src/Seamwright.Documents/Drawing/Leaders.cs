using System.Collections.Immutable;

namespace Seamwright.Documents.Drawing;

/// <summary>A label in a column with a line to what it names.</summary>
/// <param name="Anchor">What it names.</param>
/// <param name="Elbow">Where the line turns level.</param>
/// <param name="End">Where the line ends, beside the label.</param>
/// <param name="Lines">The label, at most three lines.</param>
/// <param name="Box">Room of the label.</param>
public sealed record Leader(Spot Anchor, Spot Elbow, Spot End, ImmutableArray<string> Lines, Box Box);

/// <summary>Sets labels in a column beside a drawing so that neither labels overlap nor their lines cross.</summary>
public static class Leaders
{
    /// <summary>Look of the labels.</summary>
    public const string Look = "text text--small";

    private const double Gap = 8;
    private const int MostLines = 3;

    /// <summary>Sets the labels.</summary>
    /// <param name="labels">What is named, and where it lies: left of the column.</param>
    /// <param name="left">Left edge of the letters. [drawing units]</param>
    /// <param name="width">Width of the column. [drawing units]</param>
    /// <param name="middle">Height about which the column is set. [drawing units]</param>
    /// <returns>One leader a label, from top to bottom.</returns>
    public static ImmutableArray<Leader> Set(IEnumerable<(Spot Anchor, string Text)> labels, double left, double width, double middle)
    {
        double line = Styles.SizeOf(Look) * Lettering.LineHeight;
        var wrapped = labels.Select(label => (label.Anchor, Lines: Lettering.Wrap(label.Text, Look, width, MostLines))).OrderBy(label => label.Anchor.Y).ThenBy(label => label.Anchor.X).ToArray();
        double height = wrapped.Sum(label => label.Lines.Length * line + Gap) - Gap;

        // Each exchange of two crossing lines makes both together shorter, so this comes to an end.
        var ends = Ends();
        for (bool crossed = true; crossed;)
        {
            crossed = false;
            for (int i = 0; i < wrapped.Length && !crossed; i++)
            {
                for (int j = i + 1; j < wrapped.Length && !crossed; j++)
                {
                    if (!Cross(wrapped[i].Anchor, ends[i], wrapped[j].Anchor, ends[j]))
                        continue;
                    double before = Distance(wrapped[i].Anchor, ends[i]) + Distance(wrapped[j].Anchor, ends[j]);
                    if (Distance(wrapped[i].Anchor, ends[j]) + Distance(wrapped[j].Anchor, ends[i]) >= before - 1e-9)
                        continue;
                    (wrapped[i], wrapped[j]) = (wrapped[j], wrapped[i]);
                    ends = Ends();
                    crossed = true;
                }
            }
        }

        double y = Top();
        var leaders = ImmutableArray.CreateBuilder<Leader>();
        for (int i = 0; i < wrapped.Length; i++)
        {
            double own = wrapped[i].Lines.Length * line;
            double wide = wrapped[i].Lines.Max(text => Lettering.Width(text, Look));
            leaders.Add(new Leader(wrapped[i].Anchor, ends[i], ends[i].By(12, 0), wrapped[i].Lines, new Box(left, y, wide, own)));
            y += own + Gap;
        }
        return leaders.ToImmutable();

        double Top() => middle - height / 2;

        Spot[] Ends()
        {
            double at = Top();
            var places = new Spot[wrapped.Length];
            for (int i = 0; i < wrapped.Length; i++)
            {
                places[i] = new(left - 18, at + line * 0.5);
                at += wrapped[i].Lines.Length * line + Gap;
            }
            return places;
        }
    }

    /// <summary>Height of a column of labels. [drawing units]</summary>
    public static double HeightOf(IEnumerable<string> texts, double width)
    {
        double line = Styles.SizeOf(Look) * Lettering.LineHeight;
        return texts.Sum(text => Lettering.Wrap(text, Look, width, MostLines).Length * line + Gap) - Gap;
    }

    /// <summary>Puts labels and lines on a canvas.</summary>
    public static void Draw(ICanvas canvas, IEnumerable<Leader> leaders)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        ArgumentNullException.ThrowIfNull(leaders);
        double line = Styles.SizeOf(Look) * Lettering.LineHeight;
        foreach (var leader in leaders)
        {
            canvas.Line("leader", leader.Anchor, leader.Elbow, leader.End);
            canvas.Disc("leader__dot", leader.Anchor, 2.6);
            for (int i = 0; i < leader.Lines.Length; i++)
                canvas.Text(Look, new(leader.Box.Left, leader.Box.Top + i * line + line * 0.76), leader.Lines[i]);
        }
    }

    /// <summary>Whether two straight lines cross.</summary>
    public static bool Cross(Spot a, Spot b, Spot c, Spot d)
    {
        return Side(a, b, c) * Side(a, b, d) < 0 && Side(c, d, a) * Side(c, d, b) < 0;

        static double Side(Spot a, Spot b, Spot c) => Math.Sign((b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X));
    }

    private static double Distance(Spot a, Spot b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y));
}
