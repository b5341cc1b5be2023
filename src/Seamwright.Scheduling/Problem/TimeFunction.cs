namespace Seamwright.Scheduling;

/// <summary>A non-decreasing function from a minute to a minute: what begins later is never ready sooner.</summary>
/// <remarks>
/// Constants and shifts are equal if their minutes are; any other function equals only itself, so share the object. The solver evaluates it lazily and remembers values only while it solves; a costly function does
/// well to keep its own. It may be called from several threads if one object serves several solver runs at a time.
/// </remarks>
public abstract class TimeFunction
{
    /// <summary>The value at a minute.</summary>
    /// <param name="t">Minute from the origin. [0..horizon]</param>
    /// <returns>Minute from the origin; a value beyond the horizon means "never inside the horizon".</returns>
    public abstract int At(int t);

    /// <summary>The largest argument whose value does not exceed a given minute.</summary>
    /// <param name="finish">Minute that the value may reach at most.</param>
    /// <param name="horizon">Largest argument looked at. [minutes, 0 or more]</param>
    /// <returns>The largest t in 0..horizon with At(t) ≤ finish, or −1 if there is none.</returns>
    /// <remarks>Binary search; override it where an inverse is at hand.</remarks>
    public virtual int LatestFor(int finish, int horizon)
    {
        int yes = -1;
        int no = horizon + 1;
        while (no - yes > 1)
        {
            int middle = yes + ((no - yes) / 2);
            if (At(middle) <= finish)
                yes = middle;
            else
                no = middle;
        }

        return yes;
    }

    /// <summary>The same minute whatever the argument.</summary>
    /// <param name="minute">The value. [minutes from the origin]</param>
    public static TimeFunction Constant(int minute) => new ConstantFunction(minute);

    /// <summary>The argument plus a fixed number of minutes.</summary>
    /// <param name="minutes">May be negative. [minutes]</param>
    public static TimeFunction Shift(int minutes) => new ShiftFunction(minutes);

    /// <summary>A function given as code.</summary>
    /// <param name="function">Non-decreasing; called for single minutes, so it should be cheap (about a microsecond).</param>
    public static TimeFunction Of(Func<int, int> function) => new FromDelegate(function);

    private sealed class ConstantFunction(int minute) : TimeFunction
    {
        private readonly int minute = minute;

        public override int At(int t) => minute;

        public override int LatestFor(int finish, int horizon) => minute <= finish ? horizon : -1;

        public override bool Equals(object? obj) => obj is ConstantFunction other && other.minute == minute;

        public override int GetHashCode() => HashCode.Combine(nameof(ConstantFunction), minute);
    }

    private sealed class ShiftFunction(int minutes) : TimeFunction
    {
        private readonly int minutes = minutes;

        public override int At(int t) => t + minutes;

        public override int LatestFor(int finish, int horizon) => Math.Clamp(finish - minutes, -1, horizon);

        public override bool Equals(object? obj) => obj is ShiftFunction other && other.minutes == minutes;

        public override int GetHashCode() => HashCode.Combine(nameof(ShiftFunction), minutes);
    }

    private sealed class FromDelegate(Func<int, int> function) : TimeFunction
    {
        public override int At(int t) => function(t);
    }
}
