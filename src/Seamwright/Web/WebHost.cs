using System.Security.Claims;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.AspNetCore.ResponseCompression;
using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Program.Web.Desk;
using Seamwright.Program.Web.Keeping;
using Seamwright.Program.Web.Live;
using Seamwright.Program.Web.Photos;
using Seamwright.Program.Web.Readings;
using Seamwright.Program.Web.Shelf;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;

namespace Seamwright.Program.Web;

/// <summary>Puts the web app together: what it consists of, and in which order a request passes through it.</summary>
internal static class WebHost
{
    public const string SignInPage = "/sign-in";

    /// <summary>Limit of tries at the doors, an address.</summary>
    public const string DoorLimit = "doors";

    private const int TriesAMinute = 20;
    private const int LargestBody = 8 * 1024 * 1024;

    /// <summary>Builds the app.</summary>
    /// <param name="store">An open store; stays the caller's.</param>
    /// <param name="urls">Addresses to listen on.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="setUp">Further set-up, for tests.</param>
    public static WebApplication Build(ShopStore store, string urls, IClock clock, Action<WebApplicationBuilder>? setUp = null)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(WebHost).Assembly.GetName().Name });
        builder.WebHost.UseUrls(urls);
        builder.WebHost.UseStaticWebAssets();       // where it runs from a build instead of from what is published
        builder.WebHost.ConfigureKestrel(options =>
        {
            options.AddServerHeader = false;
            options.Limits.MaxRequestBodySize = LargestBody;
        });
        builder.Logging.ClearProviders().AddSimpleConsole(options => options.SingleLine = true).SetMinimumLevel(LogLevel.Warning)
            .AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error).AddFilter("Microsoft.AspNetCore.StaticFiles", LogLevel.Error);

        var services = builder.Services;
        services.AddSingleton(store);
        services.AddSingleton(clock);
        services.AddSingleton(Sentences.Load("en"));
        services.AddSingleton<Changes>();
        services.AddSingleton<SetupCode>();
        services.AddSingleton<FirstRun>();
        services.AddSingleton<DeskLimits>();
        services.AddSingleton<ShopDesk>();
        services.AddHostedService(provider => provider.GetRequiredService<ShopDesk>());
        services.AddSingleton(CopyPlace.FromEnvironment());
        services.AddSingleton<DailyCopies>();
        services.AddHostedService(provider => provider.GetRequiredService<DailyCopies>());
        services.AddSingleton<IHealthRemark, PlanningRemark>();
        services.AddScoped<Words>();
        services.AddSingleton<FirstShop>();
        services.AddSingleton<SheetShelf>();
        services.AddSingleton<AirArrivals>();
        services.AddSingleton<PackShelf>();
        services.AddSingleton<PhotoDesk>();
        services.AddRazorComponents();
        services.AddCascadingAuthenticationState();
        services.AddHttpContextAccessor();
        services.AddResponseCompression(options =>
        {
            // Pages of people who signed in hold a token that must not be guessed by size; static files are compressed when built.
            options.MimeTypes = ["image/svg+xml"];
            options.EnableForHttps = false;
        });
        AddDoors(services, store);
        ApiHost.AddTo(services);
        setUp?.Invoke(builder);

        var app = builder.Build();
        SafeHeaders.Use(app);
        app.UseExceptionHandler("/fault", createScopeForErrors: true);
        app.UseStatusCodePagesWithReExecute("/not-here", createScopeForStatusCodePages: true);
        app.Use(async (context, next) =>
        {
            // A step that was refused or failed is answered by a page that is only looked at.
            if (context.Features.Get<IStatusCodeReExecuteFeature>() is not null || context.Features.Get<IExceptionHandlerPathFeature>() is not null)
            {
                context.Request.Method = HttpMethods.Get;
                // That a form came without its token was told already; the page that says so is no form.
                context.Features.Set<Microsoft.AspNetCore.Antiforgery.IAntiforgeryValidationFeature>(null);
            }
            // The page that tells of a fault must not ask the store who is there: that may be what failed.
            if (context.Features.Get<IExceptionHandlerPathFeature>() is not null)
            {
                context.Request.Headers.Remove("Cookie");
                context.User = new ClaimsPrincipal(new ClaimsIdentity());
            }
            await next(context);
            // A form without its token is refused with the type of a page and no page: without the type one is put in its place.
            if (context.Response is { HasStarted: false, StatusCode: StatusCodes.Status400BadRequest, ContentLength: null })
                context.Response.ContentType = null;
        });
        ApiFaults.Use(app);
        app.UseCookiePolicy(new CookiePolicyOptions { Secure = CookieSecurePolicy.Always, HttpOnly = Microsoft.AspNetCore.CookiePolicy.HttpOnlyPolicy.Always, MinimumSameSitePolicy = SameSiteMode.Strict });
        app.UseRouting();
        ApiFaults.UseRouted(app);
        app.Use(RefuseTooLarge);
        app.UseRateLimiter();
        app.UseAuthentication();
        FirstRun.Use(app);
        app.UseAuthorization();
        FirstLook.Use(app);
        app.UseAntiforgery();
        app.MapStaticAssets().AllowAnonymous();
        app.MapRazorComponents<App>();
        app.MapGet("/drawing.css", () => Results.Text(StyleSheet.ForPage(), "text/css")).AllowAnonymous();
        HealthEndpoint.Map(app);
        app.MapPost("/sign-out", SignOut).AllowAnonymous();
        LiveEndpoint.Map(app);
        PhotoEndpoint.Map(app);
        StopEndpoint.Map(app);
        ApiHost.Map(app);
        return app;
    }

    /// <summary>More than a page takes is refused as such before any of it is read; read as a form it would look like one without its token.</summary>
    private static Task RefuseTooLarge(HttpContext context, RequestDelegate next)
    {
        var limit = context.Features.Get<IHttpMaxRequestBodySizeFeature>();
        if (limit is { IsReadOnly: false } && context.Request.ContentLength > limit.MaxRequestBodySize)
        {
            // What still comes is thrown away for a few seconds: a browser reads the answer only when it could send everything.
            limit.MaxRequestBodySize = null;
            context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
            return Task.CompletedTask;
        }
        return next(context);
    }

    private static void AddDoors(IServiceCollection services, ShopStore store)
    {
        // A restart must not sign all tablets out.
        services.AddDataProtection().PersistKeysToFileSystem(new DirectoryInfo(store.Folder.Keys)).SetApplicationName("seamwright");
        services.AddIdentityCore<Account>(options =>
        {
            // NIST SP 800-63B-4 and OWASP ASVS 5.0.0, 6.2: length counts, composition rules do not.
            options.Password.RequiredLength = 8;
            options.Password.RequireDigit = options.Password.RequireLowercase = options.Password.RequireUppercase = options.Password.RequireNonAlphanumeric = false;
            options.Password.RequiredUniqueChars = 3;
            options.Lockout.MaxFailedAccessAttempts = 10;
            options.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(15);
            options.User.AllowedUserNameCharacters = "";
        }).AddUserStore<ShopAccounts>().AddSignInManager().AddPasswordValidator<CommonPasswords>();
        services.AddSingleton<SignInTickets>();
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(options =>
        {
            options.Cookie.Name = "__Host-seamwright";
            options.Cookie.SecurePolicy = CookieSecurePolicy.Always;
            options.Cookie.SameSite = SameSiteMode.Strict;
            options.Cookie.HttpOnly = true;
            options.Cookie.Path = "/";
            options.ExpireTimeSpan = TimeSpan.FromHours(12);
            options.SlidingExpiration = true;
            options.LoginPath = SignInPage;
            options.ReturnUrlParameter = "back";
            options.Events.OnValidatePrincipal = StillValid;
            options.Events.OnRedirectToAccessDenied = context => Answer(context, StatusCodes.Status403Forbidden);
            var leadToDoor = options.Events.OnRedirectToLogin;
            options.Events.OnRedirectToLogin = context =>
                context.Request.Path.StartsWithSegments(LiveEndpoint.Path, StringComparison.Ordinal) || context.Request.Path.StartsWithSegments(ApiHost.Root, StringComparison.Ordinal)
                ? Answer(context, StatusCodes.Status401Unauthorized)
                : leadToDoor(context);
        });
        services.AddOptions<CookieAuthenticationOptions>(CookieAuthenticationDefaults.AuthenticationScheme)
            .Configure<SignInTickets>((options, tickets) => options.SessionStore = tickets);
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "__Host-seamwright-form";
            // Made secure below, like every cookie: asked for here, it would refuse plain HTTP on this machine, which browsers trust.
            options.Cookie.SecurePolicy = CookieSecurePolicy.None;
            options.Cookie.SameSite = SameSiteMode.Strict;
        });
        services.AddAuthorization(options =>
        {
            Right.AddTo(options);
            Scope.AddTo(options);
        });
        services.AddRateLimiter(options =>
        {
            options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            options.AddPolicy(DoorLimit, context => HttpMethods.IsPost(context.Request.Method)
                ? RateLimitPartition.GetFixedWindowLimiter(
                    context.Connection.RemoteIpAddress?.ToString() ?? "",
                    _ => new FixedWindowRateLimiterOptions { PermitLimit = TriesAMinute, Window = TimeSpan.FromMinutes(1) })
                : RateLimitPartition.GetNoLimiter(""));
        });
    }

    /// <summary>Rights that were changed, and accounts that were closed, end what was signed in with them at the next request.</summary>
    private static async Task StillValid(CookieValidatePrincipalContext context)
    {
        var store = context.HttpContext.RequestServices.GetRequiredService<ShopStore>();
        string? stamp = context.Principal?.FindFirstValue(SignedIn.StampClaim);
        bool valid = Guid.TryParse(context.Principal?.FindFirstValue(ClaimTypes.NameIdentifier), out var id)
            && await store.AccountOf(id, context.HttpContext.RequestAborted) is { Closed: false } account && account.Stamp == stamp;
        if (!valid)
            context.RejectPrincipal();
    }

    private static Task Answer(RedirectContext<CookieAuthenticationOptions> context, int code)
    {
        context.Response.StatusCode = code;
        return Task.CompletedTask;
    }

    private static async Task<IResult> SignOut(HttpContext context, Microsoft.AspNetCore.Antiforgery.IAntiforgery forms)
    {
        if (context.User.Identity?.IsAuthenticated == true && !await forms.IsRequestValidAsync(context))
            return Results.BadRequest();
        await SignedIn.Out(context);
        context.Response.Headers["Clear-Site-Data"] = "\"cache\"";
        return Results.Redirect(SignInPage);
    }
}
