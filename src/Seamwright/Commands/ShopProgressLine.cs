using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary>One line that tells how the search goes, written over itself; nothing where nobody watches.</summary>
internal sealed class ShopProgressLine(TextWriter output, Formatter words, bool silent) : IProgress<ShopProgress>
{
    private readonly Lock _gate = new();
    private int _width;
    private NodaTime.Duration _last = NodaTime.Duration.FromSeconds(-1);

    public void Report(ShopProgress value)
    {
        lock (_gate)
        {
            if (silent || value.Elapsed - _last < NodaTime.Duration.FromMilliseconds(200))
                return;
            _last = value.Elapsed;
            double gap = value.Total.Amount > 0 && value.LowerBound is { } bound ? (double)((value.Total.Amount - bound.Amount) / value.Total.Amount) : 1;
            string line = words.Say("cli.plan.progress", value.Elapsed.TotalSeconds.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture), value.Placed, value.Vehicles, value.Total.Rounded.Amount, (100 * gap).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture));
            output.Write('\r' + line.PadRight(_width));
            _width = line.Length;
        }
    }

    /// <summary>Leaves the line empty.</summary>
    public void End()
    {
        if (!silent && _width > 0)
            output.Write('\r' + new string(' ', _width) + '\r');
    }
}
