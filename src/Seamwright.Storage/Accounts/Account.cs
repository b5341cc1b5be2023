using System.Collections.Immutable;
using NodaTime;

namespace Seamwright.Storage.Accounts;

/// <summary>Someone who may sign in. A copy: what is changed counts once it is saved.</summary>
public sealed class Account
{
    /// <summary>Never changes.</summary>
    public required Guid Id { get; init; }

    /// <summary>Name typed at sign-in.</summary>
    public required string Name { get; set; }

    /// <summary>The same for comparing.</summary>
    public string NormalName { get; set; } = "";

    /// <summary>Name of the person in the shop's own list; null = none of them.</summary>
    public string? Person { get; set; }

    /// <summary>Roles.</summary>
    public ImmutableArray<string> Roles { get; set; } = [];

    /// <summary>Slow hash of the password; null = none.</summary>
    public string? PasswordHash { get; set; }

    /// <summary>Changes with password and rights.</summary>
    public string Stamp { get; set; } = "";

    /// <summary>Wrong passwords since the last right one.</summary>
    public int WrongGuesses { get; set; }

    /// <summary>No sign-in before; null = not locked.</summary>
    public Instant? LockedUntil { get; set; }

    /// <summary>True where nobody may sign in with it any more.</summary>
    public bool Closed { get; set; }

    /// <summary>Raised at each saving.</summary>
    public long Version { get; internal set; }
}
