using System.Net;

namespace Seamwright.Web.Tests.Given;

/// <summary>A browser reduced to requests: keeps cookies, follows nothing by itself.</summary>
internal sealed class Visitor(Uri address, string from) : IDisposable
{
    /// <summary>Header by which a test tells where a request comes from.</summary>
    public const string AddressHeader = "X-Test-Address";

    private readonly HttpClient _client = new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = address };

    /// <summary>Cookies as they stand; secure ones too, as browsers do for this machine.</summary>
    public Dictionary<string, string> Cookies { get; } = [];

    public Task<Answer> Get(string path) => Send(HttpMethod.Get, path, null);

    public Task<Answer> Post(string path, IEnumerable<KeyValuePair<string, string>> entries) => Send(HttpMethod.Post, path, new FormUrlEncodedContent(entries));

    /// <summary>Sends a form with files, each under the name and type that the sender gives it.</summary>
    public Task<Answer> PostFiles(string path, IEnumerable<KeyValuePair<string, string>> entries, string field, params (string Name, string Type, byte[] Bytes)[] files)
    {
        var body = new MultipartFormDataContent();
        foreach (var (key, value) in entries)
            body.Add(new StringContent(value), key);
        foreach (var (name, type, bytes) in files)
        {
            var part = new ByteArrayContent(bytes);
            part.Headers.TryAddWithoutValidation("Content-Type", type);
            part.Headers.TryAddWithoutValidation("Content-Disposition", $"form-data; name=\"{field}\"; filename=\"{name}\"");
            body.Add(part);
        }
        return Send(HttpMethod.Post, path, body);
    }

    /// <summary>What comes back as it is, byte by byte.</summary>
    public async Task<byte[]> Bytes(string path)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Add(AddressHeader, from);
        request.Headers.Add("Cookie", string.Join("; ", Cookies.Select(cookie => $"{cookie.Key}={cookie.Value}")));
        using var response = await _client.SendAsync(request);
        return await response.EnsureSuccessStatusCode().Content.ReadAsByteArrayAsync();
    }

    /// <summary>Opens a page, fills in its form and sends it.</summary>
    /// <param name="path">The page.</param>
    /// <param name="form">Name of the form.</param>
    /// <param name="entries">What is entered; everything else stays as the page has it.</param>
    public async Task<Answer> Fill(string path, string form, params (string Name, string? Value)[] entries)
    {
        var page = await Get(path);
        return await Post(path, page.Form(form).With(entries));
    }

    public Task<Answer> SignIn(string name, string password, string page = "/sign-in") => Fill(page, "sign-in", ("name", name), ("password", password));

    public async Task<Answer> Send(HttpMethod method, string path, HttpContent? content, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, path) { Content = content };
        request.Headers.Add(AddressHeader, from);
        if (Cookies.Count > 0)
            request.Headers.Add("Cookie", string.Join("; ", Cookies.Select(cookie => $"{cookie.Key}={cookie.Value}")));
        foreach (var (name, value) in headers)
            request.Headers.TryAddWithoutValidation(name, value);
        using var response = await _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        bool endless = response.Content.Headers.ContentType?.MediaType == "text/event-stream";
        var answer = new Answer((int)response.StatusCode, response.Headers.Concat(response.Content.Headers).ToDictionary(header => header.Key, header => header.Value.ToArray(), StringComparer.OrdinalIgnoreCase), endless ? "" : await response.Content.ReadAsStringAsync());
        foreach (string cookie in answer.All("Set-Cookie"))
            Keep(cookie);
        return answer;
    }

    public void Dispose() => _client.Dispose();

    private void Keep(string cookie)
    {
        string pair = cookie.Split(';')[0];
        int sign = pair.IndexOf('=', StringComparison.Ordinal);
        if (cookie.Contains("expires=Thu, 01 Jan 1970", StringComparison.OrdinalIgnoreCase))
            Cookies.Remove(pair[..sign]);
        else
            Cookies[pair[..sign]] = pair[(sign + 1)..];
    }
}
