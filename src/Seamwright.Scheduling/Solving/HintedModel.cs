using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Seamwright.Scheduling.Solving;

/// <summary>
/// A solver model in which each variable knows its value in a given schedule, so that a warm start always covers all of
/// them: with some left out, the solver has been seen to start from plans twice as dear as the hint. Variables have no names: they took
/// a tenth of the time of building a model.
/// </summary>
internal sealed class HintedModel
{
    private readonly List<Func<HintValues, long?>> values = [];
    private readonly Dictionary<string, ILiteral> unions = [];

    public CpModel Model { get; } = new();

    public IntVar Int(Domain domain, Func<HintValues, long?> value)
    {
        values.Add(value);
        return Model.NewIntVarFromDomain(domain, "");
    }

    public IntVar Int(long low, long high, Func<HintValues, long?> value) => Int(new Domain(low, high), value);

    public BoolVar Bool(Func<HintValues, bool?> value)
    {
        values.Add(h => value(h) switch { true => 1, false => 0, null => null });
        return Model.NewBoolVar("");
    }

    /// <summary>True if one of the literals is (it may be true without; enough where it only switches constraints on).</summary>
    /// <returns>Null if there is a null among them, which stands for "always".</returns>
    public ILiteral? AnyOf(IEnumerable<ILiteral?> literals)
    {
        var distinct = new SortedDictionary<int, ILiteral>();
        foreach (ILiteral? literal in literals)
        {
            if (literal is null)
                return null;
            distinct[literal.GetIndex()] = literal;
        }

        if (distinct.Count == 1)
            return distinct.Values.First();
        string key = string.Join(",", distinct.Keys);
        if (unions.TryGetValue(key, out ILiteral? known))
            return known;
        ILiteral[] all = [.. distinct.Values];
        BoolVar union = Bool(h => all.Any(l => h.True(l)));
        foreach (ILiteral literal in all)
            Model.AddImplication(literal, union);
        Model.AddBoolOr([.. all, union.Not()]);
        return unions[key] = union;
    }

    /// <summary>States that these cannot all be true; with none, that the model has no solution.</summary>
    public void Forbid(IReadOnlyList<ILiteral> literals) => Model.AddBoolOr([.. literals.Select(l => l.Not())]);

    public void Hint(Schedule schedule)
    {
        var known = new HintValues(schedule, values.Count);
        Model.Model.SolutionHint = new PartialVariableAssignment();
        for (int i = 0; i < values.Count; i++)
        {
            if (values[i](known) is not { } value)
                continue;
            known.Set(i, value);
            Model.Model.SolutionHint.Vars.Add(i);
            Model.Model.SolutionHint.Values.Add(value);
        }
    }
}

/// <summary>The schedule of a warm start and the values found for earlier variables.</summary>
internal sealed class HintValues(Schedule schedule, int count)
{
    private readonly long?[] values = new long?[count];

    public Schedule Schedule { get; } = schedule;

    public void Set(int index, long value) => values[index] = value;

    public long? Of(IntVar variable) => values[variable.GetIndex()];

    public bool True(ILiteral literal)
    {
        int index = literal.GetIndex();
        return index >= 0 ? values[index] == 1 : values[-index - 1] == 0;
    }
}
