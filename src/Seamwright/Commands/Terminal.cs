using System.Text;
using Seamwright.Program.Printing;

namespace Seamwright.Program.Commands;

/// <summary>Where the program writes, and what can be shown there.</summary>
/// <param name="Output">Answers.</param>
/// <param name="Error">Problems.</param>
/// <param name="Screen">What <paramref name="Output"/> can show where no option says otherwise.</param>
/// <param name="RawOutput">Bytes of a document on standard output.</param>
public sealed record Terminal(TextWriter Output, TextWriter Error, Screen Screen, Func<Stream> RawOutput)
{
    /// <summary>The process's own terminal. The output must be flushed at the end.</summary>
    public static Terminal OfProcess()
    {
        bool redirected = Console.IsOutputRedirected;
        if (OperatingSystem.IsWindows())
            Console.OutputEncoding = Encoding.UTF8;     // block characters need it there

        string? term = Environment.GetEnvironmentVariable("TERM");
        bool dumb = term == "dumb";
        bool colour = !redirected && !dumb && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));
        bool unicode = redirected || (!dumb && Console.OutputEncoding.CodePage == Encoding.UTF8.CodePage);
        int width = redirected ? Screen.Usual : WidthOfWindow();

        // One write for the whole answer instead of one a line.
        var output = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false), bufferSize: 32 * 1024) { AutoFlush = false };
        return new Terminal(output, Console.Error, new Screen(Screen.Within(width), colour, unicode), Console.OpenStandardOutput);
    }

    private static int WidthOfWindow()
    {
        try
        {
            return Console.WindowWidth is > 0 and var width ? width : Screen.Usual;
        }
        catch (IOException)
        {
            return Screen.Usual;
        }
    }
}
