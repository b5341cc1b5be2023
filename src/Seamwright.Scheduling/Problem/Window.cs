namespace Seamwright.Scheduling;

/// <summary>A half-open stretch of time: <paramref name="From"/> belongs to it, <paramref name="To"/> does not.</summary>
/// <param name="From">First minute. [minutes from the origin]</param>
/// <param name="To">Minute after the last one, greater than <paramref name="From"/>. [minutes from the origin]</param>
/// <remarks>
/// Work [start, end) lies inside when From ≤ start and end ≤ To. A start on its own lies inside when From ≤ start &lt; To.
/// </remarks>
public readonly record struct Window(int From, int To)
{
    /// <summary>Is this start allowed by the window?</summary>
    /// <param name="minute">Minute from the origin.</param>
    public bool Contains(int minute) => From <= minute && minute < To;
}
