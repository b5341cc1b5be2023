using NodaTime;

namespace Seamwright.Storage;

/// <summary>A document as it lies in the store.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Json">The document, as our file formats have it.</param>
/// <param name="Version">Raised at each saving; name it when saving again.</param>
/// <param name="Changed">When it was saved last.</param>
/// <param name="ChangedBy">Who saved it last.</param>
public sealed record StoredDocument(string Id, string Json, long Version, Instant Changed, string ChangedBy);

/// <summary>What became of a saving.</summary>
public abstract record SaveOutcome
{
    private SaveOutcome()
    {
    }

    /// <summary>It is stored.</summary>
    /// <param name="Version">The version it has now.</param>
    public sealed record Saved(long Version) : SaveOutcome;

    /// <summary>Nothing was stored: somebody saved in between, or such a document is there already.</summary>
    /// <param name="Stored">What is there now.</param>
    /// <param name="Yours">What should have been stored, to be shown beside it.</param>
    public sealed record Overtaken(StoredDocument Stored, string Yours) : SaveOutcome;

    /// <summary>Nothing was stored: the document that was to be changed is not there.</summary>
    /// <param name="Id">Its name.</param>
    public sealed record NotThere(string Id) : SaveOutcome;
}
