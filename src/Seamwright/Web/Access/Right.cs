using System.Collections.Immutable;
using Microsoft.AspNetCore.Authorization;

namespace Seamwright.Program.Web.Access;

/// <summary>What somebody may do. Every page and endpoint names one of these, or says that anybody may come in.</summary>
internal static class Right
{
    /// <summary>See repairs, plans and air, without money.</summary>
    public const string SeeShop = "see-shop";

    /// <summary>See rates, prices and costs.</summary>
    public const string SeeMoney = "see-money";

    /// <summary>Begin repairs and correct them.</summary>
    public const string ChangeRepairs = "change-repairs";

    /// <summary>Enter data sheets and packs.</summary>
    public const string ChangeMaterials = "change-materials";

    /// <summary>Enter readings and forecasts.</summary>
    public const string ChangeAir = "change-air";

    /// <summary>Change people, places, calendar and rates.</summary>
    public const string ChangeShop = "change-shop";

    /// <summary>See how the program and its backups are, and have a copy made.</summary>
    public const string LookAfter = "look-after";

    /// <summary>Let people in and shut them out.</summary>
    public const string ManageAccounts = "manage-accounts";

    /// <summary>Give keys to other programs and take them back.</summary>
    public const string ManageKeys = "manage-keys";

    /// <summary>Which roles have which right; least first.</summary>
    public static ImmutableDictionary<string, ImmutableArray<string>> Roles { get; } = new Dictionary<string, ImmutableArray<string>>
    {
        [SeeShop] = Role.All,
        [SeeMoney] = [Role.Owner, Role.Manager, Role.Estimator],
        [ChangeRepairs] = [Role.Owner, Role.Manager, Role.Estimator, Role.Technician],
        [ChangeMaterials] = [Role.Owner, Role.Manager, Role.Keeper],
        [ChangeAir] = [Role.Owner, Role.Manager, Role.Painter, Role.Technician, Role.Keeper],
        [ChangeShop] = [Role.Owner, Role.Manager],
        [LookAfter] = [Role.Owner, Role.Manager],
        [ManageAccounts] = [Role.Owner],
        [ManageKeys] = [Role.Owner, Role.Manager],
    }.ToImmutableDictionary();

    public static void AddTo(AuthorizationOptions options)
    {
        foreach (var (right, roles) in Roles)
            options.AddPolicy(right, policy => policy.RequireAuthenticatedUser().RequireRole(roles));
        // What names no right is closed.
        options.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().RequireRole(Role.Owner).Build();
    }
}
