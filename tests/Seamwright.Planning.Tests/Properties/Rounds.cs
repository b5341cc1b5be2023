namespace Seamwright.Planning.Tests.Properties;

/// <summary>How many random repairs a property looks at: few in the usual run, many where SEAMWRIGHT_LONG=1 is set.</summary>
internal static class Rounds
{
    public const string Seed = "0N0XIzNsQ0O2";

    public static bool Long { get; } = Environment.GetEnvironmentVariable("SEAMWRIGHT_LONG") == "1";

    public static int Of(int usual) => Long ? usual * 20 : usual;
}
