using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>Bounds one point in time by a function of another, exactly (or within the tolerance) and with few literals.</summary>
/// <param name="model">Where it is added.</param>
/// <param name="from">Argument of the function.</param>
/// <param name="to">What is bounded.</param>
/// <param name="applies">It holds only if all of these do; null stands for one that always does.</param>
internal sealed class DelayConstraint(ProjectModel model, TimeExpression from, TimeExpression to, ILiteral?[] applies)
{
    /// <summary>to ≥ from + minutes.</summary>
    public void AtLeast(int minutes)
    {
        if (to.Possible.Min >= from.Possible.Max + minutes)
            return;
        if (to.Possible.Max < from.Possible.Min + minutes)
            Never();
        else
            model.Model.Add(to.Minutes >= from.Minutes + minutes).When(applies);
    }

    /// <summary>to ≤ from + minutes.</summary>
    public void AtMost(int minutes)
    {
        if (to.Possible.Max <= from.Possible.Min + minutes)
            return;
        if (to.Possible.Min > from.Possible.Max + minutes)
            Never();
        else
            model.Model.Add(to.Minutes <= from.Minutes + minutes).When(applies);
    }

    /// <summary>to ≥ function(from).</summary>
    public void AtLeast(TimeFunction function)
    {
        int latest = function.LatestFor(to.Possible.Max, model.Project.Horizon);
        if (!Restrict(from.Possible.Between(0, latest), out MinuteSet arguments))
            return;

        // The function never falls, so arguments that need no bound are the first ones, and of them the first and the last say it all.
        // Where the bounded point is fixed that is every one of them, and the constraint is a limit on the argument alone: nine in ten
        // constraints of a usual project, which used to be most of the time of building its model.
        int free = function.LatestFor(to.Possible.Min, model.Project.Horizon);
        if (arguments.Max <= free)
            return;

        var needs = new List<Need>();
        if (arguments.AtOrBefore(free) is { } last)
        {
            needs.Add(new Need(arguments.Min, int.MinValue, to.Possible.Min));
            if (last > arguments.Min)
                needs.Add(new Need(last, int.MinValue, to.Possible.Min));
        }

        foreach (int t in arguments.ValuesAfter(free))
        {
            int value = model.Values.At(function, t);

            // Rounding up to the next value that the point can take loses nothing, and makes one piece of a whole night.
            int next = to.Possible.AtOrAfter(value)!.Value;
            needs.Add(new Need(t, value, Math.Max(next, value + model.Tolerance)));
        }

        State(needs, sign: 1);
    }

    /// <summary>to ≤ function(from).</summary>
    /// <param name="function">Non-decreasing.</param>
    /// <param name="enough">If given: at argument t, nothing has to be said when the value reaches enough(t).</param>
    public void AtMost(TimeFunction function, Func<int, int>? enough = null)
    {
        int earliest = function.LatestFor(to.Possible.Min - 1, model.Project.Horizon) + 1;
        if (!Restrict(from.Possible.Between(earliest, int.MaxValue), out MinuteSet arguments))
            return;
        if (model.Values.At(function, arguments.Min) >= to.Possible.Max)
            return;

        var needs = new List<Need>();
        foreach (int t in arguments.Values())
        {
            int value = model.Values.At(function, t);
            int slack = Math.Min(to.Possible.Max, enough?.Invoke(t) ?? int.MaxValue);
            if (value >= slack)
            {
                needs.Add(new Need(-t, int.MinValue, -slack));
                continue;
            }

            int previous = to.Possible.AtOrBefore(value)!.Value;
            needs.Add(new Need(-t, -value, -Math.Min(previous, value - model.Tolerance)));
        }

        // Mirrored in time, an upper bound is a lower bound.
        needs.Reverse();
        State(needs, sign: -1);
    }

    private void State(List<Need> needs, int sign)
    {
        List<Piece> pieces = FunctionPieces.Cover(needs);
        long everywhere = needs.Min(n => (long)n.High - n.T);
        bool useEverywhere = pieces.Any(p => p.IsSlope && p.Bound <= everywhere);
        if (useEverywhere)
            model.Model.Add(sign * to.Minutes >= (sign * from.Minutes) + everywhere).When(applies);
        foreach (Piece piece in pieces)
        {
            if (useEverywhere && piece.Bound <= everywhere + (piece.IsSlope ? 0 : piece.First))
                continue;
            if (piece.IsSlope)
                model.Model.Add(sign * to.Minutes >= (sign * from.Minutes) + piece.Bound).When([.. applies, AtOrAfter(piece.First, sign), AtOrBefore(piece.Last, sign)]);
            else
                model.Model.Add(sign * to.Minutes >= piece.Bound).When([.. applies, AtOrAfter(piece.First, sign)]);
        }
    }

    private ILiteral? AtOrAfter(int minute, int sign) =>
        sign > 0 ? model.Times.AtOrAfter(from, minute).Literal : Before(-minute + 1);

    private ILiteral? AtOrBefore(int minute, int sign) =>
        sign > 0 ? Before(minute + 1) : model.Times.AtOrAfter(from, -minute).Literal;

    /// <summary>Pieces begin and end at possible values, so a fixed answer is always "yes", that is no literal.</summary>
    private ILiteral? Before(int minute) => model.Times.AtOrAfter(from, minute).Literal?.Not();

    /// <summary>Keeps the argument inside the set where the function allows the bounded point any value at all.</summary>
    private bool Restrict(MinuteSet arguments, out MinuteSet kept)
    {
        kept = arguments;
        if (arguments.IsEmpty)
        {
            Never();
            return false;
        }

        if (arguments.Min > from.Possible.Min)
            model.Model.Add(from.Minutes >= arguments.Min).When(applies);
        if (arguments.Max < from.Possible.Max)
            model.Model.Add(from.Minutes <= arguments.Max).When(applies);
        return true;
    }

    private void Never() => model.Hinted.Forbid([.. applies.Where(l => l is not null).Select(l => l!)]);
}
