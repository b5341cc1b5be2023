using System.Collections.Immutable;
using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Accounts;

/// <summary>What became of saving an account.</summary>
public enum AccountSaved
{
    /// <summary>It is stored.</summary>
    Yes,

    /// <summary>Another account has this name.</summary>
    NameTaken,

    /// <summary>Somebody changed it in between.</summary>
    Overtaken,
}

/// <summary>Keeps accounts.</summary>
public static class KeepingAccounts
{
    /// <summary>Whether anybody can sign in at all; false = the shop has not begun.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<bool> HasAccounts(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => db.Accounts.AnyAsync(stop));
    }

    /// <summary>All accounts by name.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<Account>> AllAccounts(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.Accounts.OrderBy(row => row.NormalName).ToListAsync(stop)).Select(Read).ToImmutableArray());
    }

    /// <summary>An account by id; null = none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The account.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<Account?> AccountOf(this ShopStore store, Guid id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => await db.Accounts.SingleOrDefaultAsync(row => row.Id == id, stop) is { } row ? Read(row) : null);
    }

    /// <summary>An account by its name for comparing; null = none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="normalName">Name for comparing.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<Account?> AccountNamed(this ShopStore store, string normalName, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => await db.Accounts.SingleOrDefaultAsync(row => row.NormalName == normalName, stop) is { } row ? Read(row) : null);
    }

    /// <summary>Stores a new account. The first of all can only be made once, however many try at the same time.</summary>
    /// <param name="store">The store.</param>
    /// <param name="account">The account.</param>
    /// <param name="onlyAsFirst">Refuse where there is an account already.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<AccountSaved> AddAccount(this ShopStore store, Account account, bool onlyAsFirst = false, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(account);
        try
        {
            return await store.InOne(async db =>
            {
                // The log is what every database lets only one writer hold: two first owners cannot both find nobody.
                await store.Database.HoldLog(db, stop);
                if (onlyAsFirst && await db.Accounts.AnyAsync(stop))
                    return AccountSaved.Overtaken;
                var row = new AccountRow { Id = account.Id, Created = store.Now, Name = "", NormalName = "", Roles = "", Stamp = "", Version = 1 };
                Fill(row, account);
                db.Accounts.Add(row);
                await db.SaveChangesAsync(stop);
                account.Version = row.Version;
                return AccountSaved.Yes;
            }, stop);
        }
        catch (DbUpdateException e) when (e.InnerException is DbException inner && store.Database.IsTwice(inner))
        {
            return AccountSaved.NameTaken;
        }
    }

    /// <summary>Stores a changed account.</summary>
    /// <param name="store">The store.</param>
    /// <param name="account">The account, with the version that was seen.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<AccountSaved> SaveAccount(this ShopStore store, Account account, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(account);
        try
        {
            return await store.InOne(async db =>
            {
                if (await db.Accounts.FindAsync([account.Id], stop) is not { } row || row.Version != account.Version)
                    return AccountSaved.Overtaken;
                Fill(row, account);
                row.Version++;
                await db.SaveChangesAsync(stop);
                account.Version = row.Version;
                return AccountSaved.Yes;
            }, stop);
        }
        catch (DbUpdateConcurrencyException)
        {
            return AccountSaved.Overtaken;
        }
        catch (DbUpdateException e) when (e.InnerException is DbException inner && store.Database.IsTwice(inner))
        {
            return AccountSaved.NameTaken;
        }
    }

    private static void Fill(AccountRow row, Account account)
    {
        row.Name = account.Name;
        row.NormalName = account.NormalName;
        row.Person = account.Person;
        row.Roles = string.Join(' ', account.Roles);
        row.PasswordHash = account.PasswordHash;
        row.Stamp = account.Stamp;
        row.WrongGuesses = account.WrongGuesses;
        row.LockedUntil = account.LockedUntil;
        row.Closed = account.Closed;
    }

    private static Account Read(AccountRow row) => new()
    {
        Id = row.Id,
        Name = row.Name,
        NormalName = row.NormalName,
        Person = row.Person,
        Roles = [.. row.Roles.Split(' ', StringSplitOptions.RemoveEmptyEntries)],
        PasswordHash = row.PasswordHash,
        Stamp = row.Stamp,
        WrongGuesses = row.WrongGuesses,
        LockedUntil = row.LockedUntil,
        Closed = row.Closed,
        Version = row.Version,
    };
}
