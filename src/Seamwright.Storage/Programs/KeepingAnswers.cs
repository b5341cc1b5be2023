using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Programs;

/// <summary>An answer as it was given.</summary>
/// <param name="Status">Its status.</param>
/// <param name="Body">Its body.</param>
/// <param name="Tag">Version of what was made; null = none.</param>
/// <param name="Location">Where it is; null = nowhere.</param>
public sealed record KeptAnswer(int Status, string Body, string? Tag, string? Location);

/// <summary>A request by the name that its program gave it.</summary>
/// <param name="ProgramKey">Whose request.</param>
/// <param name="Name">Its name.</param>
/// <param name="Request">SHA-256 over method, path and body, hexadecimal.</param>
/// <param name="Run">The run of the server.</param>
public sealed record NamedRequest(Guid ProgramKey, string Name, string Request, Guid Run);

/// <summary>What is known of a request when it comes in.</summary>
public abstract record AnswerKnown
{
    private AnswerKnown()
    {
    }

    /// <summary>It is new, and held until it is answered.</summary>
    public sealed record Begun : AnswerKnown;

    /// <summary>It was answered.</summary>
    /// <param name="Answer">How.</param>
    public sealed record Before(KeptAnswer Answer) : AnswerKnown;

    /// <summary>The same name stands for another request.</summary>
    public sealed record OtherRequest : AnswerKnown;

    /// <summary>It is being worked on.</summary>
    public sealed record StillRunning : AnswerKnown;

    /// <summary>More answers are kept for this key than may be.</summary>
    public sealed record TooMany : AnswerKnown;
}

/// <summary>Keeps answers so that a request that is sent twice is done once (draft-ietf-httpapi-idempotency-key-header).</summary>
public static class KeepingAnswers
{
    /// <summary>How long an answer is kept.</summary>
    public static Duration KeptFor { get; } = Duration.FromHours(24);

    /// <summary>Most answers kept for one key: one each nine seconds all day.</summary>
    public const int MostKept = 10_000;

    /// <summary>Looks a request up, and holds its name where it is new; of several at once exactly one begins.</summary>
    /// <param name="store">The store.</param>
    /// <param name="request">The request.</param>
    /// <param name="most">Most answers kept for one key.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<AnswerKnown> BeginAnswer(this ShopStore store, NamedRequest request, int most = MostKept, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(request);
        try
        {
            return await store.InOne(async db =>
            {
                var now = store.Now;
                var old = now - KeptFor;
                await db.KeptAnswers.Where(row => row.Began < old).ExecuteDeleteAsync(stop);
                if (await db.KeptAnswers.SingleOrDefaultAsync(row => row.ProgramKey == request.ProgramKey && row.Name == request.Name, stop) is { } there)
                    return await Again(db, there, request, now, stop);
                if (await db.KeptAnswers.CountAsync(row => row.ProgramKey == request.ProgramKey, stop) >= most)
                    return new AnswerKnown.TooMany();
                db.KeptAnswers.Add(new() { ProgramKey = request.ProgramKey, Name = request.Name, Request = request.Request, Run = request.Run, Began = now });
                await db.SaveChangesAsync(stop);
                return new AnswerKnown.Begun();
            }, stop);
        }
        catch (DbUpdateException e) when (e.InnerException is DbException inner && store.Database.IsTwice(inner))
        {
            // Another of the same name was faster between our reading and our writing.
            return new AnswerKnown.StillRunning();
        }
    }

    /// <summary>Keeps the answer to a request that was begun.</summary>
    /// <param name="store">The store.</param>
    /// <param name="request">The request.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task KeepAnswer(this ShopStore store, NamedRequest request, KeptAnswer answer, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(answer);
        return store.InOne(db => Mine(db, request).ExecuteUpdateAsync(
            set => set.SetProperty(row => row.Status, answer.Status).SetProperty(row => row.Body, answer.Body)
                .SetProperty(row => row.Tag, answer.Tag).SetProperty(row => row.Location, answer.Location), stop), stop);
    }

    /// <summary>Lets a request go that was begun and came to nothing, so that it can be sent again.</summary>
    /// <param name="store">The store.</param>
    /// <param name="request">The request.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task ForgetAnswer(this ShopStore store, NamedRequest request, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(request);
        return store.InOne(db => Mine(db, request).ExecuteDeleteAsync(stop), stop);
    }

    private static IQueryable<KeptAnswerRow> Mine(ShopDb db, NamedRequest request) =>
        db.KeptAnswers.Where(row => row.ProgramKey == request.ProgramKey && row.Name == request.Name && row.Run == request.Run && row.Status == null);

    private static async Task<AnswerKnown> Again(ShopDb db, KeptAnswerRow there, NamedRequest request, Instant now, CancellationToken stop)
    {
        if (there.Request != request.Request)
            return new AnswerKnown.OtherRequest();
        if (there.Status is { } status)
            return new AnswerKnown.Before(new(status, there.Body ?? "", there.Tag, there.Location));
        if (there.Run == request.Run)
            return new AnswerKnown.StillRunning();
        // The server ended while it worked on it: whoever asks again is served, and what was done already is refused as done.
        there.Run = request.Run;
        there.Began = now;
        await db.SaveChangesAsync(stop);
        return new AnswerKnown.Begun();
    }
}
