using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace Seamwright.Web.Tests.Given;

/// <summary>What came back.</summary>
internal sealed record Answer(int Code, IReadOnlyDictionary<string, string[]> Headers, string Text)
{
    private IHtmlDocument? _page;

    /// <summary>The text as a page.</summary>
    public IHtmlDocument Page => _page ??= new HtmlParser().ParseDocument(Text);

    public string To => One("Location");

    public string One(string header) => Headers.TryGetValue(header, out string[]? values) ? string.Join(", ", values) : "";

    public string[] All(string header) => Headers.TryGetValue(header, out string[]? values) ? values : [];

    /// <summary>A form by the name it is sent under.</summary>
    public FilledForm Form(string name) => FilledForm.In(Page, name)
        ?? throw new InvalidOperationException($"No form {name} on the page ({Code}): {Page.Title}");

    public FilledForm? FindForm(string name) => FilledForm.In(Page, name);

    /// <summary>What is wrong, line by line, as the page tells it above the form.</summary>
    public string[] Wrongs => [.. Page.QuerySelectorAll(".wrongs li").Select(item => item.TextContent.Trim())];

    /// <summary>Names of the inputs that are marked as wrong.</summary>
    public string[] Marked => [.. Page.QuerySelectorAll("[aria-invalid=true]").Select(item => item.GetAttribute("name") ?? "")];

    public string? ValueOf(string input) => Page.QuerySelector($"[name=\"{input}\"]") switch
    {
        IHtmlInputElement field => field.Value,
        IHtmlSelectElement choice => choice.Value,
        _ => null,
    };
}
