namespace Seamwright.Units;

/// <summary>A formula was asked for a value outside the range in which its source vouches for it.</summary>
/// <param name="formula">Name of the formula and its source.</param>
/// <param name="value">What was asked, with its unit.</param>
/// <param name="range">The valid range, with its unit.</param>
public sealed class OutsideValidityException(string formula, string value, string range)
    : ArgumentOutOfRangeException(null, $"{formula} holds for {range}; asked for {value}.")
{
    /// <summary>Name of the formula and its source.</summary>
    public string Formula { get; } = formula;

    /// <summary>What was asked, with its unit.</summary>
    public string Value { get; } = value;

    /// <summary>The valid range, with its unit.</summary>
    public string Range { get; } = range;
}
