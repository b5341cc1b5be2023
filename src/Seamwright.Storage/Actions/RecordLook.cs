using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Seamwright.Storage.Actions;

/// <summary>A photo of a factory look.</summary>
/// <param name="Bytes">The picture as it is kept.</param>
/// <param name="Received">SHA-256 of the picture as it came, hexadecimal: whoever has the original can show that this was made from it.</param>
public sealed record LookPhoto(ReadOnlyMemory<byte> Bytes, string Received);

/// <summary>What a place looked like before it was disturbed.</summary>
/// <param name="Id">Made by whoever writes it; delivering it again changes nothing.</param>
/// <param name="Repair">The repair.</param>
/// <param name="Place">Joint, cavity or bare area; null = the car.</param>
/// <param name="Note">In words; empty = the photos say it all.</param>
/// <param name="Offset">The shop's distance from UTC.</param>
/// <param name="Photos">Photos; empty = the note says it all.</param>
public sealed record LookDraft(Guid Id, string Repair, string? Place, string Note, Offset Offset, IReadOnlyList<LookPhoto> Photos);

/// <summary>What became of a look that was to be recorded.</summary>
public abstract record LookOutcome
{
    private LookOutcome()
    {
    }

    /// <summary>It stands in the work log, its photos are kept.</summary>
    /// <param name="Sequence">Its place in the log.</param>
    /// <param name="Repeated">Whether it had been delivered before.</param>
    public sealed record Recorded(long Sequence, bool Repeated) : LookOutcome;

    /// <summary>Another entry has this id; nothing was written.</summary>
    public sealed record OtherWithThisId : LookOutcome;

    /// <summary>There is no such repair; nothing was written.</summary>
    public sealed record NoRepair : LookOutcome;
}

/// <summary>Records factory looks: the photos and the entry in the work log that speaks of them, as one.</summary>
public static class RecordingLooks
{
    /// <summary>Kind of the entries in the work log.</summary>
    public const string Entry = "look-recorded";

    /// <summary>Kind of the photos.</summary>
    public const string PhotoKind = "look-before";

    private static readonly JsonSerializerOptions AsTyped = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Records a look. Its photos are on the disk before it counts.</summary>
    /// <param name="store">The store.</param>
    /// <param name="draft">The look.</param>
    /// <param name="by">Who saw it.</param>
    /// <param name="stop">Ends the waiting.</param>
    /// <exception cref="ArgumentException">A photo is no picture that can be kept.</exception>
    public static async Task<LookOutcome> RecordLook(this ShopStore store, LookDraft draft, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(draft);
        var photos = draft.Photos.Select((photo, i) => (
            Id: PhotoId(draft.Id, i),
            Hash: Convert.ToHexStringLower(SHA256.HashData(photo.Bytes.Span)),
            Type: KeepingPhotos.TypeOf(photo.Bytes.Span) ?? throw new ArgumentException("A photo is a JPEG, PNG or WebP picture.", nameof(draft)),
            Photo: photo)).ToList();
        foreach (var (_, hash, _, photo) in photos)
            await KeepingPhotos.WriteFile(store.Folder, hash, photo.Bytes, stop);

        string facts = new JsonObject
        {
            ["place"] = draft.Place,
            ["note"] = draft.Note,
            ["photos"] = new JsonArray([.. photos.Select(photo => new JsonObject { ["id"] = photo.Id, ["sha256"] = photo.Hash, ["received"] = photo.Photo.Received })]),
        }.ToJsonString(AsTyped);
        return await store.InOne<LookOutcome>(async db =>
        {
            // Held before looking: of two deliveries at once the second must see the first.
            await store.Database.HoldLog(db, stop);
            if (!await db.Repairs.AnyAsync(row => row.Id == draft.Repair, stop))
                return new LookOutcome.NoRepair();
            // The moment of a delivery that is repeated is that of the first.
            if (await db.WorkLog.AsNoTracking().SingleOrDefaultAsync(row => row.Id == draft.Id, stop) is { } there)
                return there.Kind == Entry && there.Repair == draft.Repair && there.Who == by && there.Facts == facts ? new LookOutcome.Recorded(there.Sequence, Repeated: true) : new LookOutcome.OtherWithThisId();

            var now = store.Now;
            db.Photos.AddRange(photos.Select(photo => KeepingPhotos.RowOf(
                photo.Id, new(draft.Repair, draft.Place, PhotoKind, now), photo.Hash, photo.Photo.Bytes.Length, photo.Type, by, now)));
            var appended = await AppendingWork.Append(store, db, [new(draft.Id, now, draft.Offset, by, Entry, draft.Repair, facts)], stop);
            return appended[0] is AppendOutcome.Appended entry ? new LookOutcome.Recorded(entry.Sequence, entry.Repeated) : new LookOutcome.OtherWithThisId();
        }, stop, outcome => outcome is LookOutcome.Recorded);
    }

    /// <summary>The id of a photo of a look, the same at each delivery.</summary>
    /// <param name="look">The look.</param>
    /// <param name="index">Which photo, from 0.</param>
    public static Guid PhotoId(Guid look, int index)
    {
        Span<byte> seed = stackalloc byte[20];
        look.TryWriteBytes(seed);
        BinaryPrimitives.WriteInt32LittleEndian(seed[16..], index);
        return new Guid(SHA256.HashData(seed).AsSpan(0, 16));
    }
}
