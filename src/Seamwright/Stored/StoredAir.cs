using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Typed;
using Seamwright.Storage;

namespace Seamwright.Stored;

/// <summary>The shop's own air as it is planned from, whether or not there is a repair.</summary>
internal static class StoredAir
{
    /// <summary>Fetches and reads it; null where the store has none that can be read.</summary>
    /// <param name="store">The store.</param>
    /// <param name="zone">The shop's zone.</param>
    /// <param name="now">The moment from which is planned; null = all readings, as for a demonstration.</param>
    /// <param name="at">Moment of a reading that does not say its own.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<Climate?> Load(ShopStore store, DateTimeZone zone, Instant? now, Instant at, CancellationToken stop)
    {
        var documents = await ClimateDocuments.Load(store, now, stop);
        return documents.IsEmpty ? null : Read(documents, zone, at, new ProblemList());
    }

    /// <summary>Reads a climate with its tables beside it; null where there is a problem, which has been told.</summary>
    public static Climate? Read(IEnumerable<(string Name, string Text)> documents, DateTimeZone zone, Instant? at, ProblemList problems)
    {
        var source = FileSource.InMemory(documents.ToImmutableDictionary(document => document.Name, document => StoredShop.Bytes(document.Text)));
        var files = new FileSet(problems, source);
        var climate = files.Open(ClimateDocuments.Name, ClimateFormat.File, ClimateFormat.Line) is { } map ? new ClimateReader(files, zone, at).Read(map) : null;
        return problems.Count == 0 ? climate : null;
    }
}
