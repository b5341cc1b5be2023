namespace Seamwright.Units;

/// <summary>An amount of money in one currency. Amounts of two currencies never mix.</summary>
/// <param name="Amount">The amount, unrounded. [units of <paramref name="Currency"/>]</param>
/// <param name="Currency">Currency code or word of the shop; <c>default</c> has none and mixes with any.</param>
public readonly record struct Money(decimal Amount, string? Currency) : IComparable<Money>
{
    /// <summary>Nothing, in any currency.</summary>
    public static Money Zero => default;

    /// <summary>Rounded to two decimals, halves away from zero: the way every printed amount is rounded.</summary>
    public Money Rounded => this with { Amount = decimal.Round(Amount, 2, MidpointRounding.AwayFromZero) };

    /// <summary>Sum.</summary>
    /// <exception cref="InvalidOperationException">The currencies differ.</exception>
    public static Money operator +(Money a, Money b) => new(a.Amount + b.Amount, Common(a, b));

    /// <summary>Difference.</summary>
    /// <exception cref="InvalidOperationException">The currencies differ.</exception>
    public static Money operator -(Money a, Money b) => new(a.Amount - b.Amount, Common(a, b));

    /// <summary>Negated.</summary>
    public static Money operator -(Money a) => a with { Amount = -a.Amount };

    /// <summary>Multiple.</summary>
    public static Money operator *(Money a, decimal factor) => a with { Amount = a.Amount * factor };

    /// <summary>Less than.</summary>
    public static bool operator <(Money a, Money b) => a.CompareTo(b) < 0;

    /// <summary>More than.</summary>
    public static bool operator >(Money a, Money b) => a.CompareTo(b) > 0;

    /// <summary>Not more than.</summary>
    public static bool operator <=(Money a, Money b) => a.CompareTo(b) <= 0;

    /// <summary>Not less than.</summary>
    public static bool operator >=(Money a, Money b) => a.CompareTo(b) >= 0;

    /// <inheritdoc/>
    public int CompareTo(Money other)
    {
        Common(this, other);
        return Amount.CompareTo(other.Amount);
    }

    // The default would print Rounded too, and that its own Rounded, without end.
    private bool PrintMembers(System.Text.StringBuilder builder)
    {
        builder.Append(System.Globalization.CultureInfo.InvariantCulture, $"Amount = {Amount}, Currency = {Currency}");
        return true;
    }

    private static string? Common(Money a, Money b) =>
        a.Currency is null || a.Currency == b.Currency ? b.Currency ?? a.Currency
        : b.Currency is null ? a.Currency
        : throw new InvalidOperationException($"Amounts in {a.Currency} and {b.Currency} cannot be combined.");
}
