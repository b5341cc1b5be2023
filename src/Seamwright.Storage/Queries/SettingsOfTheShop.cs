using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Seamwright.Storage.Queries;

/// <summary>A setting that differs from its default.</summary>
/// <param name="Value">Its value.</param>
/// <param name="Changed">When it was changed.</param>
/// <param name="ChangedBy">Who changed it.</param>
public sealed record SettingLine(string Value, Instant Changed, string ChangedBy);

/// <summary>What was done to the store or by an account.</summary>
/// <param name="At">When.</param>
/// <param name="Who">Who did it.</param>
/// <param name="What">What was done.</param>
/// <param name="Subject">To what; empty = the store.</param>
/// <param name="Origin">From where.</param>
/// <param name="FactsJson">Details, as JSON.</param>
public sealed record AuditLine(Instant At, string Who, string What, string Subject, string Origin, string FactsJson);

/// <summary>Asks for settings and the audit.</summary>
public static class SettingsOfTheShop
{
    /// <summary>All settings that differ from their defaults.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableSortedDictionary<string, SettingLine>> Settings(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.Settings.ToListAsync(stop))
            .ToImmutableSortedDictionary(row => row.Key, row => new SettingLine(row.Value, row.Changed, row.ChangedBy), StringComparer.Ordinal));
    }

    /// <summary>A part of the audit, the youngest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="number">Which part, from 1.</param>
    /// <param name="size">Entries of a part, at most <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<Page<AuditLine>> AuditPage(this ShopStore store, int number = 1, int size = 50, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        number = Math.Max(1, number);
        size = Math.Clamp(size, 1, Page<AuditLine>.MostItems);
        return store.Ask(async db =>
        {
            int total = await db.Audit.CountAsync(stop);
            var items = await db.Audit.OrderByDescending(row => row.At).ThenByDescending(row => row.Id).Skip((number - 1) * size).Take(size)
                .Select(row => new AuditLine(row.At, row.Who, row.What, row.Subject, row.Origin, row.Facts)).ToListAsync(stop);
            return new Page<AuditLine>([.. items], total, number, size);
        });
    }
}
