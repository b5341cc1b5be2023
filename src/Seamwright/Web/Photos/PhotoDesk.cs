using System.Collections.Concurrent;
using System.Security.Cryptography;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;

namespace Seamwright.Program.Web.Photos;

/// <summary>
/// Unpacks photos one at a time, all on one thread: a picture takes a hundred times the memory of its file, which the system keeps back for each thread that ever
/// unpacked one. The pages of others go on meanwhile.
/// </summary>
internal sealed class PhotoDesk : IDisposable
{
    /// <summary>Longest side of a small picture in a list. [pixels]</summary>
    public const int SmallSide = 480;

    private readonly BlockingCollection<Action> _waiting = [];
    private readonly ShopStore _store;

    public PhotoDesk(ShopStore store)
    {
        _store = store;
        new Thread(Work) { IsBackground = true, Name = "photos" }.Start();
    }

    /// <summary>Cleans a photo that was sent.</summary>
    /// <returns>The photo as it is kept, or why it is not.</returns>
    public async Task<(LookPhoto? Photo, PhotoFault? Fault)> Take(IFormFile file, CancellationToken stop)
    {
        // What the sender calls it, name and type, is not looked at.
        if (file.Length > PhotoCleaning.MostBytes)
            return (null, PhotoFault.TooLarge);
        using var sent = new MemoryStream((int)file.Length);
        await file.CopyToAsync(sent, stop);
        byte[] bytes = sent.ToArray();
        var cleaned = await InTurn(() => PhotoCleaning.Clean(bytes), stop);
        return cleaned.Jpeg is { } jpeg ? (new(jpeg, Convert.ToHexStringLower(SHA256.HashData(bytes))), null) : (null, cleaned.Fault);
    }

    /// <summary>The bytes of a kept photo; null where it is not there.</summary>
    public async Task<byte[]?> Read(PhotoLine photo, CancellationToken stop)
    {
        string path = _store.Folder.PhotoPath(photo.Hash);
        return File.Exists(path) ? await File.ReadAllBytesAsync(path, stop) : null;
    }

    /// <summary>A small picture of a kept photo; null where it is not there or cannot be read.</summary>
    public async Task<byte[]?> Small(PhotoLine photo, CancellationToken stop) =>
        await Read(photo, stop) is { } bytes ? await InTurn(() => PhotoCleaning.Small(bytes, SmallSide), stop) : null;

    /// <inheritdoc/>
    public void Dispose() => _waiting.CompleteAdding();

    private Task<T> InTurn<T>(Func<T> work, CancellationToken stop)
    {
        var done = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        _waiting.Add(
            () =>
            {
                // Whoever has gone away waits for nothing any more.
                if (stop.IsCancellationRequested)
                    done.SetCanceled(stop);
                else
                    Do(work, done);
            }, stop);
        return done.Task;
    }

    private static void Do<T>(Func<T> work, TaskCompletionSource<T> done)
    {
        try
        {
            done.SetResult(work());
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // Told to the one who asked; the next one is served all the same.
            done.SetException(e);
        }
    }

    private void Work()
    {
        foreach (var next in _waiting.GetConsumingEnumerable())
            next();
        _waiting.Dispose();
    }
}
