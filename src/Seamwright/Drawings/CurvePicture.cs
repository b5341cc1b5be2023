using System.Globalization;
using Seamwright.Documents.Charts;
using Seamwright.Planning.Tradeoffs;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Drawings;

/// <summary>The trade-off curve as a drawing: each point with its number in the list and what it changes.</summary>
public static class CurvePicture
{
    /// <summary>The drawing; null where there is no point.</summary>
    /// <param name="curve">The curve.</param>
    /// <param name="format">Formatter of the reader.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public static TradeOffDrawing? Of(TradeoffCurve curve, Formatter format, double width = 720) => curve.Points.IsEmpty
        ? null
        : new TradeOffDrawing(
            [.. curve.Points.Select((point, i) => new TradeOffPoint(point.Plan.ReadyForPaint, point.Plan.Cost.Spent, Label(point, i, format), Chosen: i == curve.RecommendedAt))],
            new DrawingWords(format),
            width);

    private static string Label(CurvePoint point, int place, Formatter format)
    {
        string change = point.FromBefore is { } difference ? string.Join(", ", PlanChanges.Of(format, difference)) : format.Say("curve.least-spending");
        return string.Create(CultureInfo.InvariantCulture, $"{place + 1}: {change}");
    }
}
