using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.Net.Http.Headers;

namespace Seamwright.Program.Web.Api;

/// <summary>How much a key may ask for: a program that runs wild must not take the shop's pages from people.</summary>
public sealed record PaceLimits
{
    /// <summary>Requests of one key in a minute; common practice, no source.</summary>
    public int AMinute { get; init; } = 300;

    /// <summary>Wrong keys from one address in a minute.</summary>
    public int WrongAMinute { get; init; } = 20;
}

/// <summary>Counts the requests of each key, and the wrong keys of each address.</summary>
internal sealed class Paces(PaceLimits limits) : IEndpointFilter, IDisposable
{
    private readonly PartitionedRateLimiter<Guid> _byKey = PartitionedRateLimiter.Create<Guid, Guid>(key =>
        RateLimitPartition.GetSlidingWindowLimiter(key, _ => new() { PermitLimit = limits.AMinute, Window = TimeSpan.FromMinutes(1), SegmentsPerWindow = 6 }));

    private readonly PartitionedRateLimiter<string> _wrong = PartitionedRateLimiter.Create<string, string>(address =>
        RateLimitPartition.GetFixedWindowLimiter(address, _ => new() { PermitLimit = limits.WrongAMinute, Window = TimeSpan.FromMinutes(1) }));

    public bool HasGuessedTooOften(string address)
    {
        using var lease = _wrong.AttemptAcquire(address, 0);
        return !lease.IsAcquired;
    }

    public void CountGuess(string address) => _wrong.AttemptAcquire(address).Dispose();

    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        using var lease = _byKey.AttemptAcquire(KeyDoor.KeyOf(context.HttpContext));
        if (lease.IsAcquired)
            return await next(context);
        double wait = lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? after.TotalSeconds : 10;
        context.HttpContext.Response.Headers[HeaderNames.RetryAfter] = Math.Max(1, Math.Ceiling(wait)).ToString(CultureInfo.InvariantCulture);
        return Refusal.Of(context.HttpContext, RefusalKind.TooMany, limits.AMinute);
    }

    public void Dispose()
    {
        _byKey.Dispose();
        _wrong.Dispose();
    }
}
