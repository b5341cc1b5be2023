using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Web.Api;

/// <summary>Says of each endpoint what a program needs to know: which scope, which answers. From it come the rules, the description and the page.</summary>
internal static class ApiDescription
{
    private const string Document = "v1";
    private const string KeyName = "key";

    /// <summary>Names an endpoint and the scope that a key needs for it.</summary>
    public static RouteHandlerBuilder Needs(this RouteHandlerBuilder endpoint, string scope, string name) =>
        endpoint.RequireAuthorization(Scope.Rule(scope)).WithName(name);

    /// <summary>What it answers.</summary>
    public static RouteHandlerBuilder Tells<T>(this RouteHandlerBuilder endpoint, int status = StatusCodes.Status200OK) => endpoint.Produces<T>(status, Told.Json);

    /// <summary>The sentence that tells what an endpoint does.</summary>
    /// <param name="sentences">Texts.</param>
    /// <param name="name">Name of the endpoint.</param>
    public static string Summary(Sentences sentences, string? name) => sentences.Find($"api.do.{name}") ?? "";

    public static void AddTo(IServiceCollection services) => services.AddOpenApi(Document, options =>
    {
        options.ShouldInclude = endpoint => endpoint.RelativePath?.StartsWith(ApiHost.Root[1..], StringComparison.Ordinal) == true;
        options.AddDocumentTransformer((document, context, _) =>
        {
            var sentences = context.ApplicationServices.GetRequiredService<Sentences>();
            document.Info = new() { Title = sentences.Find("api.name"), Version = Document, Description = sentences.Find("api.lead") };
            // Where it is reached differs from shop to shop, and is the address that it was fetched from.
            document.Servers = [new() { Url = "/" }];
            document.Components ??= new();
            document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
            {
                [KeyName] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = sentences.Find("api.key-how") },
            };
            document.Security = [new() { [new OpenApiSecuritySchemeReference(KeyName, document)] = [] }];
            return Task.CompletedTask;
        });
        options.AddOperationTransformer(Describe);
    });

    private static async Task Describe(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken stop)
    {
        var sentences = context.ApplicationServices.GetRequiredService<Sentences>();
        var metadata = context.Description.ActionDescriptor.EndpointMetadata;
        string scope = metadata.OfType<Microsoft.AspNetCore.Authorization.IAuthorizeData>().Select(rule => Scope.Of(rule.Policy)).OfType<string>().First();
        operation.Summary = Summary(sentences, operation.OperationId);
        operation.Description = sentences.Find("api.scope-needed") + " " + scope;
        operation.Tags = null;
        foreach (var parameter in (operation.Parameters ?? []).OfType<OpenApiParameter>())
            parameter.Description = sentences.Find($"api.parameter.{parameter.Name}");
        var problem = await context.GetOrCreateSchemaAsync(typeof(ProblemBody), null, stop);
        operation.Responses ??= [];
        operation.Responses["default"] = new OpenApiResponse
        {
            Description = sentences.Find("api.refused"),
            Content = new Dictionary<string, OpenApiMediaType> { [Told.Problem] = new() { Schema = problem } },
        };
    }
}
