using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Changes settings and writes the audit.</summary>
public static class ChangingSettings
{
    /// <summary>Sets a setting; who and when is kept with it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="key">Name of the setting.</param>
    /// <param name="value">Its value; null = back to the default.</param>
    /// <param name="by">Who changes it.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task ChangeSetting(this ShopStore store, string key, string? value, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(async db =>
        {
            var row = await db.Settings.FindAsync([key], stop);
            if (value is null && row is not null)
                db.Remove(row);
            if (value is not null && row is null)
                db.Add(row = new() { Key = key });
            if (value is not null)
            {
                row!.Value = value;
                row.Version++;
                row.Changed = store.Now;
                row.ChangedBy = by;
            }

            return await db.SaveChangesAsync(stop);
        }, stop);
    }

    /// <summary>Writes down that something was done to the store or by an account.</summary>
    /// <param name="store">The store.</param>
    /// <param name="who">Who did it.</param>
    /// <param name="what">What was done, for example <c>signed-in</c>.</param>
    /// <param name="subject">To what; empty = the store.</param>
    /// <param name="origin">From where: an address, or <c>console</c>.</param>
    /// <param name="factsJson">Details, as JSON, without secrets.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task NoteAudit(
        this ShopStore store, string who, string what, string subject, string origin, string factsJson = "{}", CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(async db =>
        {
            db.Audit.Add(new AuditRow { Id = store.NewId(), At = store.Now, Who = who, What = what, Subject = subject, Origin = origin, Facts = factsJson });
            return await db.SaveChangesAsync(stop);
        }, stop);
    }
}
