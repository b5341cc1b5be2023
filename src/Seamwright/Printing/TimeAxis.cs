using System.Collections.Immutable;
using NodaTime;

namespace Seamwright.Program.Printing;

/// <summary>
/// Where a moment stands in the drawing: minutes become columns here and nowhere else. Long stretches in which nobody works are
/// folded to a few columns, so that the working hours before the slot stay readable.
/// </summary>
public sealed class TimeAxis
{
    private static readonly int[] MinutesPerColumn = [1, 2, 3, 5, 6, 10, 12, 15, 20, 30, 40, 60, 90, 120, 180, 240, 360, 480, 720, 1440];

    private TimeAxis(ImmutableArray<Piece> pieces, int minutes)
    {
        Pieces = pieces;
        Minutes = minutes;
        Columns = pieces.Sum(piece => piece.Columns);
    }

    /// <summary>A stretch of the axis.</summary>
    /// <param name="From">Start.</param>
    /// <param name="To">End.</param>
    /// <param name="First">Its first column.</param>
    /// <param name="Columns">How many columns it takes.</param>
    /// <param name="Folded">True where it is squeezed: not to scale.</param>
    public readonly record struct Piece(Instant From, Instant To, int First, int Columns, bool Folded);

    /// <summary>Columns of a folded stretch.</summary>
    public const int FoldColumns = 5;

    /// <summary>Stretches in order, without gaps.</summary>
    public ImmutableArray<Piece> Pieces { get; }

    /// <summary>Minutes of a column outside folded stretches.</summary>
    public int Minutes { get; }

    /// <summary>Columns in all, at most those asked for.</summary>
    public int Columns { get; }

    /// <summary>An axis over a span.</summary>
    /// <param name="from">Start.</param>
    /// <param name="to">End, after the start.</param>
    /// <param name="awake">Stretches that must stay to scale: opening hours and work outside them. In any order, may overlap.</param>
    /// <param name="columns">Columns there are.</param>
    public static TimeAxis Over(Instant from, Instant to, IEnumerable<Interval> awake, int columns)
    {
        var stretches = Stretches(from, to, awake);
        foreach (int minutes in MinutesPerColumn)
        {
            var pieces = Lay(stretches, minutes);
            if (pieces.Sum(piece => piece.Columns) <= columns)
                return new TimeAxis(pieces, minutes);
        }
        return new TimeAxis([new Piece(from, to, 0, columns, true)], MinutesPerColumn[^1]);
    }

    /// <summary>Column of a moment; moments outside the axis stand at its ends.</summary>
    public double Position(Instant moment)
    {
        foreach (var piece in Pieces)
        {
            if (moment < piece.To)
                return piece.First + Math.Max(0, (moment - piece.From) / (piece.To - piece.From)) * piece.Columns;
        }
        return Columns;
    }

    /// <summary>Columns that something takes, at least one.</summary>
    public (int First, int Count) Span(Instant from, Instant to)
    {
        int first = Math.Clamp((int)Math.Floor(Position(from) + 1e-9), 0, Columns - 1);
        int end = Math.Clamp((int)Math.Round(Position(to)), first + 1, Columns);
        return (first, end - first);
    }

    private static List<(Instant From, Instant To, bool Folded)> Stretches(Instant from, Instant to, IEnumerable<Interval> awake)
    {
        var stretches = new List<(Instant, Instant, bool)>();
        var reached = from;
        foreach (var span in awake.Where(span => span.Start < to && span.End > from).OrderBy(span => span.Start))
        {
            // A short pause stays to scale: folding it would cost as many columns as it saves.
            if (span.Start - reached > Duration.FromMinutes(90))
            {
                Stretch(reached, span.Start, folded: true);
                reached = span.Start;
            }
            if (span.End > reached)
            {
                Stretch(reached, Instant.Min(span.End, to), folded: false);
                reached = Instant.Min(span.End, to);
            }
        }
        if (reached < to)
            Stretch(reached, to, folded: to - reached > Duration.FromMinutes(90));
        return stretches;

        void Stretch(Instant start, Instant end, bool folded)
        {
            if (stretches.Count > 0 && !folded && !stretches[^1].Item3)
                stretches[^1] = (stretches[^1].Item1, end, false);
            else
                stretches.Add((start, end, folded));
        }
    }

    private static ImmutableArray<Piece> Lay(List<(Instant From, Instant To, bool Folded)> stretches, int minutes)
    {
        var pieces = ImmutableArray.CreateBuilder<Piece>(stretches.Count);
        int first = 0;
        foreach (var (from, to, folded) in stretches)
        {
            int natural = (int)Math.Ceiling((to - from).TotalMinutes / minutes - 1e-9);
            int columns = folded ? Math.Min(FoldColumns, Math.Max(1, natural)) : Math.Max(1, natural);
            // Every column stands for the same minutes: the piece ends where its last column does, the next one begins where it should.
            pieces.Add(new Piece(from, to, first, columns, folded && natural > FoldColumns));
            first += columns;
        }
        return pieces.ToImmutable();
    }
}
