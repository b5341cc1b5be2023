using Microsoft.OpenApi;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Web.Tests.Given;
using Xunit;
using Scope = Seamwright.Program.Web.Api.Scope;

namespace Seamwright.Web.Tests.Api;

/// <summary>The description of the doors (OpenAPI 3.1) and the page that explains them.</summary>
public class DescriptionTests(BusyShop busy)
{
    private WebShop Shop => busy.Shop;

    [Fact]
    public async Task The_description_is_valid_and_tells_of_every_door()
    {
        using var caller = await Shop.Calling(Role.Painter, Scope.WriteAir);
        string text = (await caller.Get("/openapi.json")).Text;

        var read = OpenApiDocument.Parse(text, "json");

        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Equal(OpenApiSpecVersion.OpenApi3_1, read.Diagnostic.SpecificationVersion);
        var told = read.Document!.Paths.SelectMany(path => path.Value.Operations!.Select(operation => $"{operation.Key.Method} {path.Key}"));
        Assert.Equal(Doors.Select(door => $"{door.Method} {door.Path}").Order(), told.Order());
        foreach (var operation in read.Document.Paths.Values.SelectMany(path => path.Operations!.Values))
        {
            Assert.False(string.IsNullOrEmpty(operation.Summary), operation.OperationId);
            Assert.All(operation.Parameters ?? [], parameter => Assert.False(string.IsNullOrEmpty(parameter.Description), $"{operation.OperationId} {parameter.Name}"));
            Assert.Contains("default", operation.Responses!.Keys);
        }
    }

    [Fact]
    public async Task The_description_is_for_people_who_are_signed_in_too_and_for_nobody_else()
    {
        using var painter = await Shop.Signed(Role.Painter);
        using var anybody = Shop.Anybody();

        Assert.Equal(200, (await painter.Get(ApiHost.Description)).Code);
        Assert.Equal(401, (await anybody.Get(ApiHost.Description)).Code);
    }

    [Fact]
    public async Task The_page_explains_every_door_and_every_refusal()
    {
        using var painter = await Shop.Signed(Role.Painter);
        var page = (await painter.Get("/api")).Page;

        string[] told = [.. page.QuerySelectorAll("th code").Select(code => code.TextContent)];
        Assert.Equal(Doors.Select(door => $"{door.Method} {door.Path}").Order(), told.Order());
        foreach (var kind in Enum.GetValues<RefusalKind>())
            Assert.NotNull(page.GetElementById(Refusal.WordOf(kind)));
    }

    private IEnumerable<ApiDoor> Doors => ApiDoors.In(new Microsoft.AspNetCore.Routing.DefaultEndpointDataSource(Shop.Endpoints));
}
