using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Seamwright.Program.Web.Api;

/// <summary>Reads what is asked for in an address: how many, and after what.</summary>
internal static class Asked
{
    /// <summary>Most entries of one part of a list.</summary>
    public const int Most = 100;

    private const int Usual = 50;

    private static readonly OffsetDateTimePattern Iso = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.FFFFFFo<Z+HH:mm>");

    /// <summary>How many entries; null = what was asked cannot be given.</summary>
    public static int? Count(string? limit, int most = Most) =>
        limit is null ? Math.Min(Usual, most) : int.TryParse(limit, NumberStyles.None, CultureInfo.InvariantCulture, out int count) && count >= 1 && count <= most ? count : null;

    /// <summary>A place in a list, from 0.</summary>
    public static long? Place(string? after) =>
        after is null ? 0 : long.TryParse(after, NumberStyles.None, CultureInfo.InvariantCulture, out long place) ? place : null;

    /// <summary>A moment with its offset; null = none can be read.</summary>
    public static Instant? Moment(string? text) => text is not null && Iso.Parse(text).TryGetValue(default, out var at) ? at.ToInstant() : null;

    /// <summary>A moment as answers have it: to the microsecond, with the shop's offset.</summary>
    public static DateTimeOffset In(this Instant at, DateTimeZone zone) => at.InZone(zone).ToDateTimeOffset();

    public static DateTimeOffset? In(this Instant? at, DateTimeZone zone) => at?.In(zone);

    public static Told Refused(HttpContext context, string parameter, string key, params ReadOnlySpan<object> facts)
    {
        string sentence = context.RequestServices.GetRequiredService<Words>().Say(key, facts);
        return Refusal.Of(context, RefusalKind.WrongParameter, [new WrongField(parameter, sentence)], parameter);
    }

    public static Told NoCount(HttpContext context, int most = Most) => Refused(context, "limit", "api.limit", most);
}

/// <summary>A part of a list.</summary>
/// <param name="Items">Its entries.</param>
/// <param name="Next">What to ask for as <c>after</c> to get the next part; left out = there is none.</param>
/// <typeparam name="T">An entry.</typeparam>
internal sealed record Part<T>(IReadOnlyList<T> Items, string? Next)
{
    /// <summary>Cuts a part off a list of which one entry more than asked for was fetched.</summary>
    public static Part<T> Of(IReadOnlyList<T> fetched, int count, Func<T, string> name) =>
        fetched.Count > count ? new([.. fetched.Take(count)], name(fetched[count - 1])) : new(fetched, null);
}
