using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>A sign-in that lasts. The cookie holds a random key; here lies its hash, so that the database opens no door.</summary>
internal sealed class SignInRow
{
    /// <summary>SHA-256 of the key, hexadecimal.</summary>
    public required string KeyHash { get; init; }

    public required Guid Account { get; init; }

    /// <summary>The ticket, protected by the keys of the data folder.</summary>
    public required byte[] Ticket { get; set; }

    public required Instant Began { get; init; }

    public required Instant Ends { get; set; }

    /// <summary>What the browser called itself, for the list that people see.</summary>
    public required string Device { get; init; }
}
