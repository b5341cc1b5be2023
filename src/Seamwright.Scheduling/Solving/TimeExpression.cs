using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>A point in time of the model: scale · variable + offset minutes.</summary>
/// <param name="Variable">Start on the grid (scale = start step), or end in minutes (scale = 1).</param>
/// <param name="Scale">Minutes per unit of the variable.</param>
/// <param name="Offset">Minutes added, for the end of something with a fixed length.</param>
/// <param name="Possible">Values it can take.</param>
internal sealed record TimeExpression(IntVar Variable, int Scale, int Offset, MinuteSet Possible)
{
    public LinearExpr Minutes { get; } = LinearExpr.Affine(Variable, Scale, Offset);

    public (int Variable, int Offset) Key => (Variable.GetIndex(), Offset);

    public long? Hinted(HintValues h) => h.Of(Variable) is { } value ? (value * Scale) + Offset : null;

    /// <summary>The smallest value of the variable that brings the point to a minute or later.</summary>
    public int VariableFor(int minute) => MinuteSet.RoundUp(minute - Offset, Scale) / Scale;
}
