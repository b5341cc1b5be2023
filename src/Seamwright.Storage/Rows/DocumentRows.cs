using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>A repair.</summary>
internal sealed class RepairRow : DocumentRow
{
    public string Title { get; set; } = "";

    /// <summary>Title and name in small letters, to be searched on every database alike.</summary>
    public string Search { get; set; } = "";

    public RepairState State { get; set; }

    public Instant? Arrives { get; set; }

    public Instant? Promised { get; set; }

    public Instant Created { get; init; }
}

/// <summary>A data sheet.</summary>
internal sealed class SheetRow : DocumentRow
{
    public string Name { get; set; } = "";

    public string Use { get; set; } = "";
}

/// <summary>A pack on the shelf.</summary>
internal sealed class PackRow : DocumentRow
{
    public string Material { get; set; } = "";

    public string Lot { get; set; } = "";

    /// <summary>Last usable day; null = no date.</summary>
    public LocalDate? Expires { get; set; }

    /// <summary>When it left the shop for good; null = still there.</summary>
    public Instant? Gone { get; set; }

    /// <summary>Repair for which it was taken; null = on the shelf.</summary>
    public string? TakenFor { get; set; }

    public string? TakenBy { get; set; }

    public Instant? TakenAt { get; set; }
}

/// <summary>A document of which the shop has one: the shop itself, its climate, what lies beside the packs.</summary>
internal sealed class ShopDocumentRow : DocumentRow;
