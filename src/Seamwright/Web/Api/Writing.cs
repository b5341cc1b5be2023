using NodaTime;
using Seamwright.Files;
using Seamwright.Program.Web.Desk;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;

namespace Seamwright.Program.Web.Api;

/// <summary>What every change by another program has in common: who makes it, that it is noted, and that the shop is planned anew.</summary>
internal sealed class Writing(ShopStore store, ShopDesk desk, IClock clock)
{
    public ShopStore Store => store;

    public ShopDesk Desk => desk;

    /// <summary>Who changes something, as it stands beside what was changed.</summary>
    public static string By(HttpContext context) => context.User.Identity!.Name!;

    /// <summary>From where.</summary>
    public static string Origin(HttpContext context) => context.Connection.RemoteIpAddress?.ToString() ?? "";

    /// <summary>Notes in the audit what was done.</summary>
    public Task Note(HttpContext context, string what, string subject = "") => store.NoteAudit(By(context), what, subject, Origin(context), stop: CancellationToken.None);

    /// <summary>Notes what was done and has the shop planned anew.</summary>
    public async Task Done(HttpContext context, string what, string subject = "")
    {
        await Note(context, what, subject);
        desk.Changed();
    }

    /// <summary>The shop with everything that documents are checked against.</summary>
    public async Task<StoredShop> Shop()
    {
        bool isDemo = (await store.Settings()).ContainsKey(ShopDesk.DemoSetting);
        return await StoredShop.Load(store, isDemo ? null : clock.GetCurrentInstant());
    }

    /// <summary>The answer to a saving.</summary>
    /// <param name="context">The request.</param>
    /// <param name="outcome">What became of it.</param>
    /// <param name="what">What is noted where it was saved.</param>
    /// <param name="subject">What was saved.</param>
    /// <param name="made">Where it can be found, if it is new.</param>
    public async Task<Told> Answer(HttpContext context, SaveOutcome outcome, string what, string subject, string? made = null)
    {
        switch (outcome)
        {
            case SaveOutcome.Saved(var version):
                await Done(context, what, subject);
                var saved = new SavedBody(subject, version);
                return made is null ? Told.Of(saved, Tags.Of(version)) : Told.Made(saved, made, Tags.Of(version));
            case SaveOutcome.Overtaken(var stored, _):
                return made is null ? Tags.Overtaken(context, stored) : Refusal.Of(context, RefusalKind.ThereAlready, subject) with { Tag = Tags.Of(stored.Version) };
            default:
                return Refusal.Of(context, RefusalKind.NotThere);
        }
    }
}

/// <summary>That something was saved.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Version">The version it has now; also in the header <c>ETag</c>.</param>
internal sealed record SavedBody(string Id, long Version);
