using NodaTime;

namespace Seamwright.Web.Tests.Keeping;

/// <summary>A clock that stands until it is moved. It begins before the days on which tests run: a sign-in, which ends by the clock of the machine, is then still open.</summary>
internal sealed class HandClock : IClock
{
    public Instant Now { get; set; } = Instant.FromUtc(2026, 11, 10, 6, 30);

    public Instant GetCurrentInstant() => Now;
}
