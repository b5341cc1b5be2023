using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>What all stored documents share: their name, their text and who saved them last.</summary>
internal abstract class DocumentRow
{
    /// <summary>Name as the document writes it.</summary>
    public required string Id { get; init; }

    /// <summary>The document as JSON, as our file formats have it.</summary>
    public string Document { get; set; } = "{}";

    /// <summary>Raised at each saving; a saving based on an older one is refused.</summary>
    public long Version { get; set; }

    public Instant Changed { get; set; }

    public string ChangedBy { get; set; } = "";
}
