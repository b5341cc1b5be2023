using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>Someone who may sign in.</summary>
internal sealed class AccountRow
{
    public required Guid Id { get; init; }

    /// <summary>Name typed at sign-in.</summary>
    public required string Name { get; set; }

    /// <summary>The same for comparing, so that two accounts cannot differ by capitals only.</summary>
    public required string NormalName { get; set; }

    /// <summary>The person of the shop document that this is; null = none.</summary>
    public string? Person { get; set; }

    /// <summary>Roles, parted by blanks.</summary>
    public required string Roles { get; set; }

    /// <summary>Slow hash of the password; null = none was set.</summary>
    public string? PasswordHash { get; set; }

    /// <summary>Changes with password and rights: every sign-in made before ends.</summary>
    public required string Stamp { get; set; }

    public int WrongGuesses { get; set; }

    /// <summary>No sign-in before; null = not locked.</summary>
    public Instant? LockedUntil { get; set; }

    /// <summary>True where the account was closed.</summary>
    public bool Closed { get; set; }

    public required Instant Created { get; init; }

    public long Version { get; set; }
}
