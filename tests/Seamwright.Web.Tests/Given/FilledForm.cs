using AngleSharp.Html.Dom;

namespace Seamwright.Web.Tests.Given;

/// <summary>A form as a browser would send it.</summary>
internal sealed class FilledForm
{
    private const string Handler = "_handler";

    private readonly List<KeyValuePair<string, string>> _entries;

    private FilledForm(List<KeyValuePair<string, string>> entries) => _entries = entries;

    public IReadOnlyList<KeyValuePair<string, string>> Entries => _entries;

    /// <summary>Names of the inputs that people fill in.</summary>
    public IEnumerable<string> Names => _entries.Select(entry => entry.Key).Where(name => name is not (Handler or "__RequestVerificationToken" or "version")).Distinct();

    public static FilledForm? In(IHtmlDocument page, string name)
    {
        var form = page.Forms.FirstOrDefault(form => form.QuerySelector($"input[name={Handler}]")?.GetAttribute("value") == name);
        if (form is null)
            return null;
        var entries = new List<KeyValuePair<string, string>>();
        foreach (var element in form.Elements)
        {
            switch (element)
            {
                case IHtmlInputElement { Type: "radio" or "checkbox", IsChecked: false } or IHtmlInputElement { Type: "submit" or "file" }:
                    break;
                case IHtmlInputElement { Name.Length: > 0 } input:
                    entries.Add(new(input.Name, input.Value));
                    break;
                case IHtmlSelectElement { Name.Length: > 0 } select:
                    entries.Add(new(select.Name, select.Value ?? ""));
                    break;
                case IHtmlTextAreaElement { Name.Length: > 0 } area:
                    entries.Add(new(area.Name, area.Value));
                    break;
            }
        }
        return new(entries);
    }

    /// <summary>The form with some entries changed; null takes one out, as an unticked box is.</summary>
    public List<KeyValuePair<string, string>> With(params (string Name, string? Value)[] changes)
    {
        var sent = _entries.Where(entry => changes.All(change => change.Name != entry.Key)).ToList();
        sent.AddRange(changes.Where(change => change.Value is not null).Select(change => new KeyValuePair<string, string>(change.Name, change.Value!)));
        return sent;
    }

    /// <summary>The form with the same text in everything that people fill in.</summary>
    public List<KeyValuePair<string, string>> Everywhere(string text) =>
        [.. _entries.Select(entry => Names.Contains(entry.Key) ? new KeyValuePair<string, string>(entry.Key, text) : entry)];
}
