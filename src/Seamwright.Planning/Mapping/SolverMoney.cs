using NodaTime;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>Money as the solver's whole numbers: ten-thousandths, so that a minute of any usual wage is exact.</summary>
internal static class SolverMoney
{
    private const decimal Scale = 10_000;

    public static long From(Money money) => (long)decimal.Round(money.Amount * Scale, MidpointRounding.AwayFromZero);

    public static long Labour(Person person, int minutes) => From(new Money(person.PerHour.Amount * minutes / 60, person.PerHour.Currency));

    public static Money Back(long amount, string currency) => new(amount / Scale, currency);
}
