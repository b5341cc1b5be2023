using System.Security.Claims;
using Microsoft.AspNetCore.Components;
using NodaTime;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Desk;
using Seamwright.Suitability;

namespace Seamwright.Program.Web;

/// <summary>Texts and quantities for one page, in the shop's units, culture and zone as seen from the moment that was planned from.</summary>
internal sealed class Words(Sentences sentences, ShopDesk desk)
{
    private Formatter? _format;

    public Formatter Format => _format ??= new Formatter(sentences, desk.State is { Shop: { } shop } state ? Notation.Of(shop, state.AsOf) : Notation.Plain);

    public string this[string key] => Format.Say(key);

    public string Say(string key, params ReadOnlySpan<object> facts) => Format.Say(key, facts);

    public string Sentence(Reason reason) => Format.Sentence(reason);

    /// <summary>A moment for the <c>datetime</c> attribute.</summary>
    public static string Machine(Instant at) => at.ToString("uuuu-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Whether somebody has a right; for showing and hiding only, every door asks again.</summary>
    public static bool May(ClaimsPrincipal? user, string right) => user is not null && Right.Roles[right].Any(user.IsInRole);

    /// <summary>Markup that our own drawings wrote and escaped.</summary>
    public static MarkupString Drawn(string svg) => new(svg);
}
