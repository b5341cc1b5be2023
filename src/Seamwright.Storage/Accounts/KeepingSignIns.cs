using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Seamwright.Storage.Accounts;

/// <summary>A sign-in that lasts.</summary>
/// <param name="KeyHash">SHA-256 of the cookie's key, hexadecimal.</param>
/// <param name="Account">Who signed in.</param>
/// <param name="Ticket">The protected ticket.</param>
/// <param name="Began">When it began.</param>
/// <param name="Ends">When it ends by itself.</param>
/// <param name="Device">What the browser called itself.</param>
public sealed record SignIn(string KeyHash, Guid Account, ImmutableArray<byte> Ticket, Instant Began, Instant Ends, string Device);

/// <summary>Keeps sign-ins at the server: what is not here any more opens no door, whatever cookie is shown.</summary>
public static class KeepingSignIns
{
    /// <summary>Stores a sign-in or a renewed one, and clears those that are over.</summary>
    /// <param name="store">The store.</param>
    /// <param name="signIn">The sign-in.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task KeepSignIn(this ShopStore store, SignIn signIn, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(signIn);
        return store.InOne(async db =>
        {
            var now = store.Now;
            await db.SignIns.Where(row => row.Ends < now).ExecuteDeleteAsync(stop);
            if (await db.SignIns.FindAsync([signIn.KeyHash], stop) is { } row)
            {
                row.Ticket = [.. signIn.Ticket];
                row.Ends = signIn.Ends;
            }
            else
            {
                db.SignIns.Add(new()
                {
                    KeyHash = signIn.KeyHash,
                    Account = signIn.Account,
                    Ticket = [.. signIn.Ticket],
                    Began = signIn.Began,
                    Ends = signIn.Ends,
                    Device = signIn.Device,
                });
            }
            await db.SaveChangesAsync(stop);
            return true;
        }, stop);
    }

    /// <summary>A sign-in that has not ended; null = none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="keyHash">SHA-256 of the cookie's key.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SignIn?> SignInOf(this ShopStore store, string keyHash, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var now = store.Now;
        return store.Ask(async db => await db.SignIns.SingleOrDefaultAsync(row => row.KeyHash == keyHash && row.Ends >= now, stop) is { } row
            ? new SignIn(row.KeyHash, row.Account, [.. row.Ticket], row.Began, row.Ends, row.Device)
            : null);
    }

    /// <summary>Sign-ins of an account that last, the newest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="account">The account.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<SignIn>> SignInsOf(this ShopStore store, Guid account, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var now = store.Now;
        return store.Ask(async db => (await db.SignIns.Where(row => row.Account == account && row.Ends >= now).OrderByDescending(row => row.Began).ToListAsync(stop))
            .Select(row => new SignIn(row.KeyHash, row.Account, [.. row.Ticket], row.Began, row.Ends, row.Device)).ToImmutableArray());
    }

    /// <summary>Ends one sign-in.</summary>
    /// <param name="store">The store.</param>
    /// <param name="keyHash">SHA-256 of the cookie's key.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task EndSignIn(this ShopStore store, string keyHash, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(db => db.SignIns.Where(row => row.KeyHash == keyHash).ExecuteDeleteAsync(stop), stop);
    }

    /// <summary>Ends all sign-ins of an account.</summary>
    /// <param name="store">The store.</param>
    /// <param name="account">The account.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task EndSignIns(this ShopStore store, Guid account, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(db => db.SignIns.Where(row => row.Account == account).ExecuteDeleteAsync(stop), stop);
    }
}
