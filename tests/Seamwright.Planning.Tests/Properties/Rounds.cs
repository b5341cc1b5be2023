using CsCheck;

namespace Seamwright.Planning.Tests.Properties;

/// <summary>
/// How many random cases a property looks at: few and always the same in the usual run; where SEAMWRIGHT_LONG=1 is set, many. Every case has a
/// seed of its own, because a generator's first seed decides its first case only.
/// </summary>
internal static class Rounds
{
    private const ulong Seed = 20261125;

    public static bool Long { get; } = Environment.GetEnvironmentVariable("SEAMWRIGHT_LONG") == "1";

    public static int Of(int usual) => Long ? usual * 20 : usual;

    /// <summary>Looks at the cases one after the other.</summary>
    public static void Look<T>(Gen<T> cases, int usual, Action<T> holds)
    {
        for (uint round = 1; round <= Of(usual); round++)
            cases.Sample(holds, seed: new PCG(round, Seed).ToString(), iter: 1, threads: 1);
    }
}
