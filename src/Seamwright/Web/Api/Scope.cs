using System.Collections.Immutable;
using Microsoft.AspNetCore.Authorization;
using Seamwright.Program.Web.Access;

namespace Seamwright.Program.Web.Api;

/// <summary>What a key of another program opens. Each scope belongs to a right of people, so that a key never does more than whoever made it.</summary>
internal static class Scope
{
    /// <summary>See repairs, plans, materials, shelf and air, without money.</summary>
    public const string Read = "read";

    /// <summary>See prices, rates and costs.</summary>
    public const string ReadMoney = "read-money";

    /// <summary>Begin repairs, correct them, hand them over, record looks.</summary>
    public const string WriteRepairs = "write-repairs";

    /// <summary>Enter data sheets, packs and nozzles.</summary>
    public const string WriteShelf = "write-shelf";

    /// <summary>Send readings of the air.</summary>
    public const string WriteAir = "write-air";

    /// <summary>Change people, places, calendar and rates.</summary>
    public const string WriteShop = "write-shop";

    /// <summary>Any key: the description of the doors, also for people who are signed in.</summary>
    public const string Describe = "describe";

    /// <summary>Claim of a key for each of its scopes.</summary>
    public const string Claim = "scope";

    /// <summary>The right that whoever makes a key with this scope must have, and keep.</summary>
    public static ImmutableDictionary<string, string> Rights { get; } = new Dictionary<string, string>
    {
        [Read] = Right.SeeShop,
        [ReadMoney] = Right.SeeMoney,
        [WriteRepairs] = Right.ChangeRepairs,
        [WriteShelf] = Right.ChangeMaterials,
        [WriteAir] = Right.ChangeAir,
        [WriteShop] = Right.ChangeShop,
    }.ToImmutableDictionary();

    /// <summary>All scopes, in the order of lists.</summary>
    public static ImmutableArray<string> All { get; } = [Read, ReadMoney, WriteRepairs, WriteShelf, WriteAir, WriteShop];

    /// <summary>Name of the rule that asks for a scope.</summary>
    /// <param name="scope">The scope.</param>
    public static string Rule(string scope) => $"key:{scope}";

    /// <summary>The scope that a rule asks for; null = it is no rule of keys.</summary>
    /// <param name="rule">Name of the rule.</param>
    public static string? Of(string? rule) => rule?.StartsWith("key:", StringComparison.Ordinal) == true ? rule[4..] : null;

    /// <summary>Whether people with these roles may make a key with a scope, and keep it.</summary>
    /// <param name="scope">The scope.</param>
    /// <param name="roles">Their roles.</param>
    public static bool IsOpenTo(string scope, IEnumerable<string> roles) => Rights.TryGetValue(scope, out string? right) && Right.Roles[right].Intersect(roles).Any();

    /// <summary>Whether money is shown to whoever asks.</summary>
    /// <param name="context">The request.</param>
    public static bool SeesMoney(HttpContext context) => context.User.HasClaim(Claim, ReadMoney);

    public static void AddTo(AuthorizationOptions options)
    {
        foreach (string scope in All)
            options.AddPolicy(Rule(scope), policy => policy.AddAuthenticationSchemes(KeyDoor.SchemeName).RequireAuthenticatedUser().RequireClaim(Claim, scope));
        options.AddPolicy(Rule(Describe), policy => policy
            .AddAuthenticationSchemes(KeyDoor.SchemeName, Microsoft.AspNetCore.Authentication.Cookies.CookieAuthenticationDefaults.AuthenticationScheme).RequireAuthenticatedUser());
    }
}
