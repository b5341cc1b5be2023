namespace Seamwright.Program.Printing;

/// <summary>What the place of output can show.</summary>
/// <param name="Width">Columns. [60…140]</param>
/// <param name="Colour">True where colours may be sent; they are never the only carrier of a meaning.</param>
/// <param name="Unicode">True where more than ASCII can be shown.</param>
public sealed record Screen(int Width, bool Colour, bool Unicode)
{
    /// <summary>Fewest columns written for.</summary>
    public const int Narrowest = 60;

    /// <summary>Most columns used: longer lines are tiring to read.</summary>
    public const int Widest = 140;

    /// <summary>Columns where the width is not known, for example in a file.</summary>
    public const int Usual = 100;

    /// <summary>A file or pipe: no colour, the usual width.</summary>
    public static Screen File { get; } = new(Usual, Colour: false, Unicode: true);

    /// <summary>A width inside the limits.</summary>
    public static int Within(int width) => Math.Clamp(width, Narrowest, Widest);
}
