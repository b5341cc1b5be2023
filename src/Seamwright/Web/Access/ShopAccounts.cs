using Microsoft.AspNetCore.Identity;
using NodaTime;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;

namespace Seamwright.Program.Web.Access;

/// <summary>The framework's account handling (hashing, counting wrong guesses, locking) on the shop's own store.</summary>
internal sealed class ShopAccounts(ShopStore store) :
    IUserPasswordStore<Account>, IUserLockoutStore<Account>, IUserSecurityStampStore<Account>, IUserRoleStore<Account>
{
    public async Task<IdentityResult> CreateAsync(Account user, CancellationToken cancellationToken) =>
        Result(await store.AddAccount(user, stop: cancellationToken));

    public async Task<IdentityResult> UpdateAsync(Account user, CancellationToken cancellationToken) =>
        Result(await store.SaveAccount(user, cancellationToken));

    // People leave, their signatures stay: an account is closed, not deleted.
    public async Task<IdentityResult> DeleteAsync(Account user, CancellationToken cancellationToken)
    {
        user.Closed = true;
        return await UpdateAsync(user, cancellationToken);
    }

    public async Task<Account?> FindByIdAsync(string userId, CancellationToken cancellationToken) =>
        Guid.TryParse(userId, out var id) ? await store.AccountOf(id, cancellationToken) : null;

    public Task<Account?> FindByNameAsync(string normalizedUserName, CancellationToken cancellationToken) =>
        store.AccountNamed(normalizedUserName, cancellationToken);

    public Task<string> GetUserIdAsync(Account user, CancellationToken cancellationToken) => Task.FromResult(user.Id.ToString());

    public Task<string?> GetUserNameAsync(Account user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Name);

    public Task SetUserNameAsync(Account user, string? userName, CancellationToken cancellationToken) => Set(() => user.Name = userName ?? "");

    public Task<string?> GetNormalizedUserNameAsync(Account user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.NormalName);

    public Task SetNormalizedUserNameAsync(Account user, string? normalizedName, CancellationToken cancellationToken) => Set(() => user.NormalName = normalizedName ?? "");

    public Task SetPasswordHashAsync(Account user, string? passwordHash, CancellationToken cancellationToken) => Set(() => user.PasswordHash = passwordHash);

    public Task<string?> GetPasswordHashAsync(Account user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash);

    public Task<bool> HasPasswordAsync(Account user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash is not null);

    public Task<DateTimeOffset?> GetLockoutEndDateAsync(Account user, CancellationToken cancellationToken) =>
        Task.FromResult(user.LockedUntil?.ToDateTimeOffset());

    public Task SetLockoutEndDateAsync(Account user, DateTimeOffset? lockoutEnd, CancellationToken cancellationToken) =>
        Set(() => user.LockedUntil = lockoutEnd is { } end ? Microseconds(Instant.FromDateTimeOffset(end)) : null);

    public Task<int> IncrementAccessFailedCountAsync(Account user, CancellationToken cancellationToken) => Task.FromResult(++user.WrongGuesses);

    public Task ResetAccessFailedCountAsync(Account user, CancellationToken cancellationToken) => Set(() => user.WrongGuesses = 0);

    public Task<int> GetAccessFailedCountAsync(Account user, CancellationToken cancellationToken) => Task.FromResult(user.WrongGuesses);

    public Task<bool> GetLockoutEnabledAsync(Account user, CancellationToken cancellationToken) => Task.FromResult(true);

    public Task SetLockoutEnabledAsync(Account user, bool enabled, CancellationToken cancellationToken) => Task.CompletedTask;

    public Task SetSecurityStampAsync(Account user, string stamp, CancellationToken cancellationToken) => Set(() => user.Stamp = stamp);

    public Task<string?> GetSecurityStampAsync(Account user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Stamp);

    public Task AddToRoleAsync(Account user, string roleName, CancellationToken cancellationToken) =>
        Set(() => user.Roles = user.Roles.Contains(roleName) ? user.Roles : user.Roles.Add(roleName));

    public Task RemoveFromRoleAsync(Account user, string roleName, CancellationToken cancellationToken) => Set(() => user.Roles = user.Roles.Remove(roleName));

    public Task<IList<string>> GetRolesAsync(Account user, CancellationToken cancellationToken) => Task.FromResult<IList<string>>([.. user.Roles]);

    public Task<bool> IsInRoleAsync(Account user, string roleName, CancellationToken cancellationToken) => Task.FromResult(user.Roles.Contains(roleName));

    public async Task<IList<Account>> GetUsersInRoleAsync(string roleName, CancellationToken cancellationToken) =>
        [.. (await store.AllAccounts(cancellationToken)).Where(account => account.Roles.Contains(roleName))];

    public void Dispose()
    {
        // The store belongs to the program.
    }

    private static Instant Microseconds(Instant at) => Instant.FromUnixTimeTicks(at.ToUnixTimeTicks() / 10 * 10);

    private static Task Set(Action set)
    {
        set();
        return Task.CompletedTask;
    }

    private static IdentityResult Result(AccountSaved saved) => saved == AccountSaved.Yes
        ? IdentityResult.Success
        : IdentityResult.Failed(new IdentityError { Code = saved.ToString() });
}
