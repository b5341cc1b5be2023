using System.Text.Json;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Seamwright.Web.Tests.Given;

/// <summary>
/// The rules for pages that everybody can use, as far as a program can check them: axe-core, run in the page itself. It is put into a page once and run for each
/// screen, which takes a third of the time of bringing it anew.
/// </summary>
internal static class Axe
{
    /// <summary>All rules of WCAG 2.0 to 2.2, A and AA, by the tags of axe-core.</summary>
    public const string Everything = """{"type":"tag","values":["wcag2a","wcag2aa","wcag21a","wcag21aa","wcag22aa"]}""";

    /// <summary>What depends on the colours alone.</summary>
    public const string Colours = """{"type":"rule","values":["color-contrast","link-in-text-block"]}""";

    private static readonly Lazy<string> Source = new(() =>
    {
        using var stream = typeof(AxeResult).Assembly.GetManifestResourceStream("Deque.AxeCore.Commons.Resources.axe.min.js")
            ?? throw new InvalidOperationException("The package no longer carries axe.min.js under this name.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    });

    public static Task PutInto(IPage page) => page.EvaluateAsync(Source.Value);

    /// <summary>A line for each rule that is broken, with the first places; and how many rules were looked at and kept.</summary>
    public static async Task<(int Kept, string[] Broken)> Run(IPage page, string rules)
    {
        var told = await page.EvaluateAsync<JsonElement>("""
            async rules => {
                const found = await axe.run(document, { runOnly: JSON.parse(rules), resultTypes: ["violations"] });
                return { kept: found.passes.length, broken: found.violations.map(rule => `${rule.id}, ${rule.help}: ${rule.nodes.slice(0, 3).map(node => node.html).join(" | ")}`) };
            }
            """, rules);
        return (told.GetProperty("kept").GetInt32(), [.. told.GetProperty("broken").EnumerateArray().Select(line => line.GetString()!)]);
    }
}
