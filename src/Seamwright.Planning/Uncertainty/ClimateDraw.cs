namespace Seamwright.Planning.Uncertainty;

/// <summary>Draws the error of the climate for a block of samples, and what each hour of cure then counts.</summary>
internal sealed class ClimateDraw(CureGrid grid, Scatter scatter, ulong seed)
{
    private const int Lanes = Normals.Lanes;

    private readonly double[] _swing = new double[2 * Lanes];        // temperature, then humidity
    private readonly double[] _offset = new double[2 * Lanes];
    private readonly double[] _error = new double[2 * Lanes];
    private readonly double[] _panel = new double[Lanes];            // error of the panel at the start of the cell
    private readonly double[] _metal = new double[Lanes];            // and in its middle
    private readonly double[] _normal = new double[Lanes];

    /// <summary>Takes note of the errors of a cell.</summary>
    /// <param name="cell">Cell.</param>
    /// <param name="warmer">Error of the air's temperature, one a lane. [K]</param>
    /// <param name="damper">Error of the relative humidity, one a lane. [1]</param>
    public delegate void Note(int cell, ReadOnlySpan<double> warmer, ReadOnlySpan<double> damper);

    /// <summary>What each hour counts. [law · cell · lane]</summary>
    public double[] Answers { get; } = new double[grid.Laws.Length * grid.Cells * Lanes];

    /// <summary>Who wants to see the errors; null = nobody.</summary>
    public Note? Seen { get; init; }

    /// <summary>A constant error and one that comes and goes (first-order autoregression by the hour), for temperature and humidity.</summary>
    public void Run(uint block)
    {
        DrawOffset(block, 1, scatter.TemperatureOffset, humidity: false);
        DrawOffset(block, 2, scatter.HumidityOffset, humidity: true);
        Array.Clear(_panel);
        for (int cell = 0; cell < grid.Cells; cell++)
        {
            bool open = cell == grid.Cells - 1;
            Swing(block, cell, open, scatter.TemperatureSwing, humidity: false);
            Swing(block, cell, open, scatter.HumiditySwing, humidity: true);
            Seen?.Invoke(cell, _error.AsSpan(0, Lanes), _error.AsSpan(Lanes, Lanes));
            FollowWithPanel(open ? 0 : grid.PanelMemory);
            for (int law = 0; law < grid.Laws.Length; law++)
                grid.Laws[law].Fill(cell, _error.AsSpan(0, Lanes), _metal, _error.AsSpan(Lanes, Lanes), Answers.AsSpan(((law * grid.Cells) + cell) * Lanes, Lanes));
        }
    }

    /// <summary>A panel that was measured is off by nothing then, and follows the error of the air with its time constant.</summary>
    /// <param name="memory">What is left of the panel's distance to the air after a cell. [0…1]</param>
    private void FollowWithPanel(double memory)
    {
        double half = Math.Sqrt(memory);
        for (int lane = 0; lane < Lanes; lane++)
        {
            double distance = _panel[lane] - _error[lane];
            _metal[lane] = _error[lane] + (half * distance);
            _panel[lane] = _error[lane] + (memory * distance);
        }
    }

    private void DrawOffset(uint block, uint dimension, double deviation, bool humidity)
    {
        var into = _offset.AsSpan(humidity ? Lanes : 0, Lanes);
        into.Clear();
        if (deviation == 0)
            return;
        Normals.Fill(SeedOf(humidity), block, dimension, into);
        for (int lane = 0; lane < Lanes; lane++)
            into[lane] *= deviation;
    }

    private void Swing(uint block, int cell, bool open, double deviation, bool humidity)
    {
        int from = humidity ? Lanes : 0;
        var swing = _swing.AsSpan(from, Lanes);
        var offset = _offset.AsSpan(from, Lanes);
        var error = _error.AsSpan(from, Lanes);
        if (deviation == 0 || open)
        {
            offset.CopyTo(error);
            return;
        }
        Normals.Fill(SeedOf(humidity), block, CellDimension(cell, humidity), _normal);
        double old = cell == 0 ? 0 : scatter.Memory;
        double fresh = deviation * Math.Sqrt(1 - (old * old));
        for (int lane = 0; lane < Lanes; lane++)
        {
            swing[lane] = (cell == 0 ? 0 : old * swing[lane]) + (fresh * _normal[lane]);
            error[lane] = offset[lane] + swing[lane];
        }
    }

    private ulong SeedOf(bool humidity) => scatter.Redrawn?.Kind == (humidity ? CauseKind.Humidity : CauseKind.Temperature) ? ~seed : seed;

    private static uint CellDimension(int cell, bool humidity) => 0x10_0000u + ((uint)cell * 2) + (humidity ? 1u : 0u);
}
