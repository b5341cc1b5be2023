namespace Seamwright.Air;

/// <summary>
/// A temperature over a stretch of time in closed form: level + slope·s + a·exp(−k·s) + (b + c·s)·exp(−m·s), with s in minutes from the start
/// of the stretch and temperatures in kelvin. It is closed under "follows with a time constant" for heating patterns, forecasts and logs,
/// so no panel temperature is ever stepped numerically.
/// </summary>
internal readonly struct Curve
{
    private readonly double _level, _slope, _a, _k, _b, _c, _m;

    private Curve(double level, double slope, double a, double k, double b, double c, double m)
    {
        _level = level;
        _slope = slope;
        _a = a;
        _k = k;
        _b = b;
        _c = c;
        _m = m;
    }

    public static Curve Constant(double kelvin) => new(kelvin, 0, 0, 0, 0, 0, 0);

    public static Curve Line(double kelvin, double kelvinPerMinute) => new(kelvin, kelvinPerMinute, 0, 0, 0, 0, 0);

    /// <summary>Whether the curve is a straight line.</summary>
    public bool IsLine => _a == 0 && _b == 0 && _c == 0;

    public double Value(double s)
    {
        double value = _level + _slope * s;
        if (_a != 0)
            value += _a * Math.Exp(-_k * s);
        if (_b != 0 || _c != 0)
            value += (_b + _c * s) * Math.Exp(-_m * s);
        return value;
    }

    /// <summary>The same curve told from <paramref name="by"/> minutes later on.</summary>
    public Curve Shifted(double by)
    {
        if (by == 0)
            return this;

        double second = Math.Exp(-_m * by);
        return new(_level + _slope * by, _slope, _a * Math.Exp(-_k * by), _k, (_b + _c * by) * second, _c * second, _m);
    }

    /// <summary>The solution of y′ = rate·(this − y), y(0) = start: what follows this curve with time constant 1/rate (first order).</summary>
    /// <remarks>This curve may have one exponential only: air never has two, and nothing follows a panel.</remarks>
    public Curve Followed(double rate, double start)
    {
        if (_b != 0 || _c != 0)
            throw new InvalidOperationException("Only air can be followed.");

        double level = _level - _slope / rate;
        if (_a == 0)
            return new(level, _slope, start - level, rate, 0, 0, 0);

        // Equal time constants are the resonance of the equation: a·k·s·exp(−k·s). Nearer than 1e-6 the general form loses digits,
        // and the resonant one is off by less than 1e-5 K.
        if (Math.Abs(_k / rate - 1) < 1e-6)
            return new(level, _slope, 0, 0, start - level, _a * rate, rate);

        double a = _a * rate / (rate - _k);
        return new(level, _slope, a, _k, start - level - a, 0, rate);
    }
}
