using Seamwright.Storage;
using Seamwright.Storage.Actions;

namespace Seamwright.Program.Web.Access;

/// <summary>Writes into the audit what people did at the doors and to the shop.</summary>
internal static class Audited
{
    public static Task Tell(ShopStore store, HttpContext context, string who, string what, string subject = "") =>
        store.NoteAudit(who, what, subject, context.Connection.RemoteIpAddress?.ToString() ?? "", "{}", context.RequestAborted);
}
