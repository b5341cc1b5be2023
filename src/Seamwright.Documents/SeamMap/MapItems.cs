using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>A line of text with its place.</summary>
/// <param name="Look">Classes.</param>
/// <param name="At">Foot of the letters.</param>
/// <param name="Text">The text.</param>
/// <param name="Align">What stands at the place.</param>
public sealed record PlacedText(string Look, Spot At, string Text, Align Align)
{
    /// <summary>Room that it takes.</summary>
    public Box Box => Lettering.BoxOf(Look, At, Text, Align);

    /// <summary>Puts it on a canvas.</summary>
    public void Draw(ICanvas canvas) => canvas.Text(Look, At, Text, Align);
}

/// <summary>A straight run of a seam.</summary>
/// <param name="From">One end.</param>
/// <param name="To">Other end.</param>
public readonly record struct Run(Spot From, Spot To)
{
    /// <summary>Length on the sheet. [drawing units]</summary>
    public double Length => Math.Sqrt((To.X - From.X) * (To.X - From.X) + (To.Y - From.Y) * (To.Y - From.Y));

    /// <summary>A place on the run. [0…1]</summary>
    public Spot At(double share) => new(From.X + share * (To.X - From.X), From.Y + share * (To.Y - From.Y));
}

/// <summary>A seam in the map.</summary>
public sealed record MapSeam
{
    /// <summary>The joint.</summary>
    public required Joint Joint { get; init; }

    /// <summary>Edge it is drawn on.</summary>
    public required PanelEdge Edge { get; init; }

    /// <summary>How far it is.</summary>
    public required SeamState State { get; init; }

    /// <summary>Its runs, at the scale of the map; dabs: one run through all of them.</summary>
    public required ImmutableArray<Run> Runs { get; init; }

    /// <summary>Its name, shortened where the sheet is narrow.</summary>
    public required string Name { get; init; }

    /// <summary>Dabs that are drawn, at most as many as there are.</summary>
    public required int Dabs { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Box Badge { get; init; }

    /// <summary>Where the sign of its state stands.</summary>
    public required Spot Sign { get; init; }

    /// <summary>Lines of text beside it, its name not among them.</summary>
    public required ImmutableArray<PlacedText> Texts { get; init; }

    /// <summary>What a finger may touch to choose it.</summary>
    public required Box Hit { get; init; }

    /// <summary>Everything said of it, in words.</summary>
    public required string Title { get; init; }
}

/// <summary>A bare area in the map: a patch of its true area.</summary>
/// <param name="Area">The area.</param>
/// <param name="Patch">The patch.</param>
/// <param name="Texts">Lines beside it.</param>
/// <param name="Title">In words.</param>
public sealed record MapPatch(BareArea Area, Box Patch, ImmutableArray<PlacedText> Texts, string Title);

/// <summary>A closed section in the map: an outlined cell, at its true length where that is known.</summary>
/// <param name="Cavity">The cavity.</param>
/// <param name="Cell">The cell.</param>
/// <param name="Texts">Lines beside it.</param>
/// <param name="Title">In words.</param>
public sealed record MapCell(Cavity Cavity, Box Cell, ImmutableArray<PlacedText> Texts, string Title);
