using NodaTime;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>How a seam map is drawn.</summary>
public sealed record MapOptions
{
    /// <summary>Narrowest sheet. [drawing units]</summary>
    public const double Narrowest = 320;

    /// <summary>Width of the sheet. [drawing units, at least <see cref="Narrowest"/>; default 900]</summary>
    public double Width { get; init; } = 900;

    /// <summary>For gloved fingers on a work card: targets of 48 instead of 24 units.</summary>
    public bool Card { get; init; }

    /// <summary>Moment whose states are shown; null = the moment of the repair.</summary>
    public Instant? At { get; init; }

    /// <summary>Where choosing a seam, bare area or cavity leads; null = it cannot be chosen.</summary>
    public Func<PlaceId, string?> Link { get; init; } = _ => null;

    /// <summary>Whether the list of seams stands below the map.</summary>
    public bool Key { get; init; } = true;

    /// <summary>Smallest side of what can be chosen. [drawing units]</summary>
    public double Target => Card ? 48 : 24;

    /// <summary>A sheet for a phone: names stand in the list only.</summary>
    public bool IsNarrow => Width < 560;
}
