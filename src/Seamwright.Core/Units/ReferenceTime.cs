namespace Seamwright.Units;

/// <summary>Cure work done or needed: time at a law's reference climate that would do the same work. It is not clock time.</summary>
public readonly record struct ReferenceTime : IComparable<ReferenceTime>
{
    private ReferenceTime(double hours) => Hours = hours;

    /// <summary>Stored value. [h at the reference climate]</summary>
    public double Hours { get; }

    /// <summary>Reference time. [min at the reference climate]</summary>
    public double Minutes => Hours * 60;

    /// <summary>From hours at the reference climate.</summary>
    public static ReferenceTime FromHours(double hours) => new(hours);

    /// <summary>From minutes at the reference climate.</summary>
    public static ReferenceTime FromMinutes(double minutes) => new(minutes / 60);

    /// <summary>Nothing.</summary>
    public static ReferenceTime Zero => default;

    /// <summary>Sum.</summary>
    public static ReferenceTime operator +(ReferenceTime a, ReferenceTime b) => new(a.Hours + b.Hours);

    /// <summary>Difference.</summary>
    public static ReferenceTime operator -(ReferenceTime a, ReferenceTime b) => new(a.Hours - b.Hours);

    /// <summary>Multiple.</summary>
    public static ReferenceTime operator *(ReferenceTime a, double factor) => new(a.Hours * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(ReferenceTime a, ReferenceTime b) => a.Hours / b.Hours;

    /// <summary>Smaller than.</summary>
    public static bool operator <(ReferenceTime a, ReferenceTime b) => a.Hours < b.Hours;

    /// <summary>Greater than.</summary>
    public static bool operator >(ReferenceTime a, ReferenceTime b) => a.Hours > b.Hours;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(ReferenceTime a, ReferenceTime b) => a.Hours <= b.Hours;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(ReferenceTime a, ReferenceTime b) => a.Hours >= b.Hours;

    /// <inheritdoc/>
    public int CompareTo(ReferenceTime other) => Hours.CompareTo(other.Hours);
}
