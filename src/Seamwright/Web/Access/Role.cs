using System.Collections.Immutable;

namespace Seamwright.Program.Web.Access;

/// <summary>What people are in the shop. A person may be several.</summary>
internal static class Role
{
    public const string Owner = "owner";
    public const string Manager = "manager";
    public const string Estimator = "estimator";
    public const string Painter = "painter";
    public const string Technician = "technician";
    public const string Keeper = "keeper";

    /// <summary>All of them, in the order of lists.</summary>
    public static ImmutableArray<string> All { get; } = [Owner, Manager, Estimator, Painter, Technician, Keeper];
}
