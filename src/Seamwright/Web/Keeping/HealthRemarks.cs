using NodaTime;
using Seamwright.Program.Web.Desk;
using Seamwright.Storage.Health;

namespace Seamwright.Program.Web.Keeping;

/// <summary>One more thing that the page of health tells, by whoever looks after it; register it, and it is shown.</summary>
internal interface IHealthRemark
{
    /// <summary>How it is now; null = nothing to tell.</summary>
    HealthLine? Now(Instant now);
}

/// <summary>Whether plans keep up with what people save.</summary>
internal sealed class PlanningRemark(ShopDesk desk) : IHealthRemark
{
    /// <summary>Planning that takes longer than this is told. [common practice, no source]</summary>
    public static Duration Longest { get; } = Duration.FromMinutes(5);

    public HealthLine? Now(Instant now)
    {
        if (desk.WaitingSince is not { } since)
            return new(true, "web.health.planned", []);
        var waits = now - since;
        string minutes = ((int)waits.TotalMinutes).ToString(System.Globalization.CultureInfo.InvariantCulture);
        return waits > Longest ? new(false, "web.health.planning-slow", [minutes]) : new(true, "web.health.planning", []);
    }
}
