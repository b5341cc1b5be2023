using Seamwright.Documents.Drawing;

namespace Seamwright.Documents.SeamMap;

/// <summary>A sign for a state, known by its form alone: dash, ring, triangle, half-filled ring, square, ticked disc.</summary>
internal static class StateSign
{
    private const double R = 6;

    public static void Draw(ICanvas canvas, Spot at, SeamState state)
    {
        switch (state)
        {
            case SeamState.Nothing:
                canvas.Line("state", at.By(-5, 0), at.By(5, 0));
                break;
            case SeamState.Open:
                canvas.Disc("state", at, R);
                break;
            case SeamState.Late:
                canvas.Area("state state--late", at.By(0, -R - 1), at.By(R + 1.5, R), at.By(-R - 1.5, R));
                canvas.Line("state state--late", at.By(0, -2.2), at.By(0, 2));
                canvas.Line("state state--late", at.By(0, 3.4), at.By(0, 4.4));
                break;
            case SeamState.Curing:
                canvas.Disc("state state--curing", at, R);
                canvas.Area("state__body state__body--curing", [.. Enumerable.Range(0, 13).Select(i => Math.SinCos(Math.PI * i / 12)).Select(turn => at.By(R * turn.Cos, R * turn.Sin))]);
                break;
            case SeamState.Sealed:
                canvas.Rectangle("state__body", new Box(at.X - 5, at.Y - 5, 10, 10));
                break;
            case SeamState.Ready:
                canvas.Disc("state state--ready", at, R);
                canvas.Line("state state--ready", at.By(-3, 0), at.By(-0.8, 2.6), at.By(3.4, -2.8));
                break;
        }
    }
}
