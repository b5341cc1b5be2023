using Microsoft.AspNetCore.Identity;
using Seamwright.Storage.Accounts;

namespace Seamwright.Program.Web.Access;

/// <summary>
/// Refuses what is guessed first: short well-known words with figures at the end, rows of keys, and the names of account, program and trade
/// (OWASP ASVS 5.0.0, 6.2.4 and 6.2.11). From memory and common practice; a full list of the 3000 most common would be better.
/// </summary>
internal sealed class CommonPasswords : IPasswordValidator<Account>
{
    private static readonly string[] Stems =
    [
        "password", "passw0rd", "qwertz", "qwerty", "asdfgh", "yxcvbn", "zxcvbn", "letmein", "welcome", "iloveyou", "sunshine", "princess", "football", "baseball",
        "monkey", "dragon", "master", "shadow", "superman", "batman", "trustno", "admin", "administrator", "login", "hello", "freedom", "whatever", "starwars",
        "seamwright", "bodyshop", "sealer", "painter", "garage", "carcar", "changeme", "default", "guest", "access", "secret", "abcdefgh", "abc",
    ];

    public Task<IdentityResult> ValidateAsync(UserManager<Account> manager, Account user, string? password)
    {
        string plain = (password ?? "").Trim().ToLowerInvariant();
        string core = plain.Trim("0123456789!?.,-_ #*$".ToCharArray());
        bool common = core.Length == 0 || Stems.Contains(core) || (user.Name.Length > 2 && core.Equals(user.Name, StringComparison.OrdinalIgnoreCase)) || IsRow(core);
        return Task.FromResult(common ? IdentityResult.Failed(new IdentityError { Code = "CommonPassword" }) : IdentityResult.Success);
    }

    private static bool IsRow(string text) => text.Length > 3 && text.Zip(text.Skip(1)).All(pair => pair.Second - pair.First is 0 or 1);
}
