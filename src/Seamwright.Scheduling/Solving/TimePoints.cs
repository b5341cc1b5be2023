using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>Literals "this point is at or after that minute", each made once.</summary>
internal sealed class TimePoints(HintedModel model)
{
    private readonly Dictionary<(int Variable, int Value), BoolVar> known = [];

    /// <summary>The literal, or a fixed answer where the domain gives one.</summary>
    public (ILiteral? Literal, bool Fixed) AtOrAfter(TimeExpression time, int minute)
    {
        if (minute <= time.Possible.Min)
            return (null, true);
        if (minute > time.Possible.Max)
            return (null, false);
        int value = time.VariableFor(time.Possible.AtOrAfter(minute)!.Value);
        var key = (time.Variable.GetIndex(), value);
        if (!known.TryGetValue(key, out BoolVar? literal))
        {
            IntVar variable = time.Variable;
            known[key] = literal = model.Bool(h => h.Of(variable) is { } v ? v >= value : null);
            model.Model.Add(variable >= value).OnlyEnforceIf(literal);
            model.Model.Add(variable <= value - 1).OnlyEnforceIf(literal.Not());
        }

        return (literal, true);
    }
}
