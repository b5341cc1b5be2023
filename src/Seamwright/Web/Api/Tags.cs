using System.Globalization;
using Microsoft.Net.Http.Headers;
using Seamwright.Storage;

namespace Seamwright.Program.Web.Api;

/// <summary>Versions of documents as entity tags (RFC 9110, 8.8.3 and 13.1), so that nobody changes what somebody else has changed meanwhile.</summary>
internal static class Tags
{
    // With money and without it a document is told in two ways; each has its own tag and both mean the same version.
    private const string WithMoney = "-with-money";

    public static string Of(long version, bool seesMoney = false) => $"\"{version.ToString(CultureInfo.InvariantCulture)}{(seesMoney ? WithMoney : "")}\"";

    /// <summary>Whether the asker has this version already.</summary>
    public static bool IsKnown(HttpContext context, string tag) =>
        context.Request.GetTypedHeaders().IfNoneMatch.Any(one => one.Equals(EntityTagHeaderValue.Any) || one.Compare(EntityTagHeaderValue.Parse(tag), useStrongComparison: false));

    /// <summary>The document, or that it has not changed.</summary>
    public static Told Tell<T>(HttpContext context, T body, string tag) =>
        IsKnown(context, tag) ? new(StatusCodes.Status304NotModified, "", tag) : Told.Of(body, tag);

    /// <summary>Whether a new document is to be made under this name, and none is to be replaced.</summary>
    public static bool AsksForNew(HttpContext context) => context.Request.GetTypedHeaders().IfNoneMatch is [var only] && only.Equals(EntityTagHeaderValue.Any);

    /// <summary>
    /// Why a change may not go on; null = it is based on what is stored. <c>*</c> does not do: it would mean that whatever is there may be overwritten.
    /// </summary>
    public static Told? Refuse(HttpContext context, StoredDocument stored)
    {
        var based = context.Request.GetTypedHeaders().IfMatch;
        if (based.Count == 0 || based.Any(one => one.Equals(EntityTagHeaderValue.Any)))
            return Refusal.Of(context, RefusalKind.WhichVersion);
        var known = new[] { EntityTagHeaderValue.Parse(Of(stored.Version)), EntityTagHeaderValue.Parse(Of(stored.Version, seesMoney: true)) };
        return based.Any(one => known.Any(tag => tag.Compare(one, useStrongComparison: true))) ? null : Overtaken(context, stored);
    }

    public static Told Overtaken(HttpContext context, StoredDocument stored) =>
        Refusal.Of(context, RefusalKind.Overtaken, stored.ChangedBy) with { Tag = Of(stored.Version) };
}
