namespace Seamwright.Documents.Drawing;

/// <summary>A place on the sheet of paper. Not a quantity of the shop: data becomes drawing units in scales only.</summary>
/// <param name="X">To the right. [drawing unit, 1/96 in]</param>
/// <param name="Y">Downwards. [drawing unit]</param>
public readonly record struct Spot(double X, double Y)
{
    /// <summary>The place moved.</summary>
    public Spot By(double x, double y) => new(X + x, Y + y);
}

/// <summary>An upright rectangle on the sheet of paper. [drawing units]</summary>
/// <param name="Left">Left edge.</param>
/// <param name="Top">Upper edge.</param>
/// <param name="Width">Width, not negative.</param>
/// <param name="Height">Height, not negative.</param>
public readonly record struct Box(double Left, double Top, double Width, double Height)
{
    /// <summary>Right edge.</summary>
    public double Right => Left + Width;

    /// <summary>Lower edge.</summary>
    public double Bottom => Top + Height;

    /// <summary>Middle.</summary>
    public Spot Centre => new(Left + Width / 2, Top + Height / 2);

    /// <summary>True where both cover a common area.</summary>
    public bool Overlaps(Box other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    /// <summary>True where the other lies inside, edges included.</summary>
    public bool Holds(Box other) => other.Left >= Left - 1e-6 && other.Right <= Right + 1e-6 && other.Top >= Top - 1e-6 && other.Bottom <= Bottom + 1e-6;

    /// <summary>Grown about its middle until it is at least so large.</summary>
    public Box AtLeast(double width, double height)
    {
        double w = Math.Max(Width, width);
        double h = Math.Max(Height, height);
        return new(Left - (w - Width) / 2, Top - (h - Height) / 2, w, h);
    }

    /// <summary>Larger on every side.</summary>
    public Box Grown(double by) => new(Left - by, Top - by, Width + 2 * by, Height + 2 * by);

    /// <summary>The smallest box around both.</summary>
    public Box With(Box other)
    {
        double left = Math.Min(Left, other.Left);
        double top = Math.Min(Top, other.Top);
        return new(left, top, Math.Max(Right, other.Right) - left, Math.Max(Bottom, other.Bottom) - top);
    }
}
