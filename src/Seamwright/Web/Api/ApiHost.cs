using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace Seamwright.Program.Web.Api;

/// <summary>The doors for other programs: what they consist of. Decision record 0021 tells why they are as they are.</summary>
internal static class ApiHost
{
    /// <summary>Beginning of all addresses.</summary>
    public const string Root = "/api/v1";

    /// <summary>Address of the description (OpenAPI 3.1).</summary>
    public const string Description = Root + "/openapi.json";

    /// <summary>The page that explains it in words.</summary>
    public const string Page = "/api";

    public static void AddTo(IServiceCollection services)
    {
        services.TryAddSingleton(new PaceLimits());
        services.AddSingleton<Paces>();
        services.AddSingleton<Once>();
        services.AddScoped<Writing>();
        services.AddAuthentication().AddScheme<AuthenticationSchemeOptions, KeyDoor>(KeyDoor.SchemeName, null);
        services.ConfigureHttpJsonOptions(options =>
        {
            options.SerializerOptions.PropertyNamingPolicy = Told.Options.PropertyNamingPolicy;
            options.SerializerOptions.NumberHandling = JsonNumberHandling.Strict;
        });
        ApiDescription.AddTo(services);
    }

    public static void Map(WebApplication app)
    {
        app.MapOpenApi(Description).RequireAuthorization(Scope.Rule(Scope.Describe));
        var api = app.MapGroup(Root).AddEndpointFilter(app.Services.GetRequiredService<Paces>()).WithMetadata(new RequestSizeLimitAttribute(Bodies.Largest));
        ShopApi.Map(api);
        RepairsApi.Map(api);
        WorkApi.Map(api);
    }
}
