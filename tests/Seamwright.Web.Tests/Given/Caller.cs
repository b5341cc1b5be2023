using System.Text;
using System.Text.Json.Nodes;

namespace Seamwright.Web.Tests.Given;

/// <summary>Another program with a key.</summary>
internal sealed class Caller(Visitor visitor, string key, Guid id) : IDisposable
{
    /// <summary>The key as it is sent.</summary>
    public string Key => key;

    /// <summary>Which key it is.</summary>
    public Guid Id => id;

    public Task<Answer> Get(string path, params (string, string)[] headers) => Send(HttpMethod.Get, path, null, headers);

    public Task<Answer> Put(string path, JsonNode? body, params (string, string)[] headers) => Send(HttpMethod.Put, path, body?.ToJsonString(), headers);

    /// <summary>Sends something to be made, under a name of its own where none is given.</summary>
    public Task<Answer> Post(string path, JsonNode? body, string? name = null) => Send(HttpMethod.Post, path, body?.ToJsonString(), [("Idempotency-Key", name ?? Guid.NewGuid().ToString())]);

    public Task<Answer> Send(HttpMethod method, string path, string? body, params (string, string)[] headers) =>
        visitor.Send(method, "/api/v1" + path, body is null ? null : new StringContent(body, Encoding.UTF8, "application/json"), [("Authorization", $"Bearer {key}"), .. headers]);

    public void Dispose() => visitor.Dispose();
}
