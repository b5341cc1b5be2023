using System.Collections.Immutable;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using NodaTime;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;

namespace Seamwright.Program.Web.Access;

/// <summary>Keeps sign-ins at the server. The cookie holds only a random key of 256 bits; signing out or closing an account ends it here.</summary>
internal sealed class SignInTickets(ShopStore store, IDataProtectionProvider protection, IHttpContextAccessor requests) : ITicketStore
{
    private const int KeyBytes = 32;
    private const int DeviceLength = 80;

    private static readonly Duration Usual = Duration.FromHours(12);

    private readonly IDataProtector _protector = protection.CreateProtector("sign-in tickets");

    public async Task<string> StoreAsync(AuthenticationTicket ticket)
    {
        string key = Convert.ToBase64String(RandomNumberGenerator.GetBytes(KeyBytes));
        await RenewAsync(key, ticket);
        return key;
    }

    public Task RenewAsync(string key, AuthenticationTicket ticket)
    {
        if (!Guid.TryParse(ticket.Principal.FindFirstValue(ClaimTypes.NameIdentifier), out var account))
            return Task.CompletedTask;
        var now = store.Now;
        var ends = ticket.Properties.ExpiresUtc is { } at ? Instant.FromUnixTimeMilliseconds(at.ToUnixTimeMilliseconds()) : now + Usual;
        byte[] bytes = _protector.Protect(TicketSerializer.Default.Serialize(ticket));
        return store.KeepSignIn(new SignIn(Hash(key), account, [.. bytes], now, ends, Device()));
    }

    public async Task<AuthenticationTicket?> RetrieveAsync(string key)
    {
        if (await store.SignInOf(Hash(key)) is not { } signIn)
            return null;
        try
        {
            return TicketSerializer.Default.Deserialize(_protector.Unprotect([.. signIn.Ticket]));
        }
        catch (CryptographicException)
        {
            return null;        // the keys are not those it was made with
        }
    }

    public Task RemoveAsync(string key) => store.EndSignIn(Hash(key));

    private static string Hash(string key) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(key)));

    private string Device()
    {
        string device = requests.HttpContext?.Request.Headers.UserAgent.ToString() ?? "";
        return device.Length > DeviceLength ? device[..DeviceLength] : device;
    }
}
