using System.Diagnostics;
using System.Globalization;
using System.Runtime;

namespace Seamwright.Program.Commands;

/// <summary>How long the parts of a run took, told where <c>SEAMWRIGHT_DEBUG=1</c>.</summary>
internal sealed class Laps
{
    private readonly List<string> _laps = [];
    private readonly long _started = Stopwatch.GetTimestamp();
    private long _last = Stopwatch.GetTimestamp();

    /// <summary>Whether whoever runs the program wants to see its inside.</summary>
    public static bool Wanted => Environment.GetEnvironmentVariable("SEAMWRIGHT_DEBUG") == "1";

    /// <summary>Ends a part.</summary>
    public void Lap(string name)
    {
        _laps.Add(string.Create(CultureInfo.InvariantCulture, $"{name} {Stopwatch.GetElapsedTime(_last).TotalMilliseconds:0} ms ({JitInfo.GetCompilationTime().TotalMilliseconds:0} ms compiling {JitInfo.GetCompiledMethodCount()} methods so far)"));
        _last = Stopwatch.GetTimestamp();
    }

    /// <summary>Writes them where they are wanted.</summary>
    public void Tell(TextWriter output)
    {
        if (Wanted)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", _laps)}; {Stopwatch.GetElapsedTime(_started).TotalMilliseconds:0} ms in all"));
    }
}
