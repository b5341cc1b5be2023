using System.Text;
using System.Xml;
using Seamwright.Documents.Drawing;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Drawings;

/// <summary>One HTML page with all drawings of a repair, for a desk screen, a phone and paper. It loads nothing from elsewhere.</summary>
internal static class DrawingPage
{
    private const string Layout = """
        :root{color-scheme:light dark;--page:#f3ecdf;--sheet:#fcf8f0;--ink:#2a2833;--faint:#686158;--rule:#d8cdba;--focus:#1d4a66}
        @media (prefers-color-scheme:dark){:root{--page:#141210;--sheet:#1d1b19;--ink:#f1e8d9;--faint:#b0a698;--rule:#4a443d;--focus:#93c4de}}
        *{box-sizing:border-box}
        body{margin:0;background:var(--page);color:var(--ink);font:16px/1.45 system-ui,-apple-system,"Segoe UI",Roboto,"Noto Sans","DejaVu Sans",sans-serif}
        main{max-width:1340px;margin:0 auto;padding:20px 24px 48px;display:grid;gap:20px}
        h1{font-size:1.5rem;line-height:1.2;margin:0}
        h2{font-size:1.05rem;margin:12px 0 -6px}
        p{margin:4px 0;color:var(--faint);max-width:70ch}
        figure{margin:0;background:var(--sheet);border:1px solid var(--rule);border-radius:4px;padding:6px;overflow:hidden}
        figure:target{outline:3px solid var(--focus)}
        figure svg{display:block;width:100%;height:auto;margin:0 auto}
        .whole svg{max-width:900px}
        .pair{display:grid;gap:20px;grid-template-columns:repeat(auto-fill,minmax(min(100%,560px),1fr));align-items:start}
        .drawing--narrow{display:none!important}
        table{border-collapse:collapse;width:100%;background:var(--sheet);font-size:.92rem}
        th,td{text-align:left;padding:7px 10px;border-bottom:1px solid var(--rule);vertical-align:top}
        td.clock{white-space:nowrap;font-variant-numeric:tabular-nums}
        summary{cursor:pointer;min-height:32px;padding:4px 0}
        summary:focus-visible{outline:3px solid var(--focus)}
        .table{overflow-x:auto}
        @media (max-width:640px){main{padding:12px 8px 32px;gap:14px}figure{padding:0}.drawing--wide{display:none!important}.drawing--narrow{display:block!important}
          thead{display:none}tr{display:grid;grid-template-columns:auto 1fr;border-bottom:1px solid var(--rule);padding:6px 0}td{border:0;padding:1px 10px}td:last-child{grid-column:1/-1}}
        @media print{body{background:none}figure{break-inside:avoid;border:0}main{padding:0}details>*{display:block}}
        """;

    /// <summary>Writes the page.</summary>
    public static string Write(RepairInput input, Plan? plan, DrawingSet set, Formatter format)
    {
        var text = new StringBuilder("<!DOCTYPE html>\n");
        using (var html = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, ConformanceLevel = ConformanceLevel.Fragment, NewLineChars = "\n" }))
        {
            html.WriteStartElement("html");
            html.WriteAttributeString("lang", "en");
            Head(html, input);
            html.WriteStartElement("body");
            html.WriteStartElement("main");
            Top(html, input, plan, format);
            Whole(html, set.Map);
            if (set.Timeline is { } timeline)
            {
                Whole(html, timeline);
                Table(html, set, format);
            }
            Pair(html, format.Say("draw.page.sections"), set.Sections);
            Pair(html, format.Say("draw.page.cures"), set.Cures);
            if (set.Air is { } air)
                Whole(html, air);
            html.WriteEndElement();
            html.WriteEndElement();
            html.WriteEndElement();
        }
        return text.Append('\n').ToString();
    }

    private static void Head(XmlWriter html, RepairInput input)
    {
        html.WriteStartElement("head");
        html.WriteStartElement("meta");
        html.WriteAttributeString("charset", "utf-8");
        html.WriteEndElement();
        html.WriteStartElement("meta");
        html.WriteAttributeString("name", "viewport");
        html.WriteAttributeString("content", "width=device-width, initial-scale=1");
        html.WriteEndElement();
        html.WriteElementString("title", Shown(input.Repair.Name));
        html.WriteStartElement("style");
        html.WriteRaw($"\n{Layout}\n{StyleSheet.ForPage()}");
        html.WriteEndElement();
        html.WriteEndElement();
        html.WriteRaw("\n");
    }

    private static void Top(XmlWriter html, RepairInput input, Plan? plan, Formatter format)
    {
        html.WriteStartElement("header");
        html.WriteElementString("h1", Shown(input.Repair.Name));
        html.WriteElementString("p", Shown(plan is null ? format.Say("draw.page.no-plan") : format.Say("draw.time.facts", plan.ReadyForPaint, plan.Slot, plan.ReadyForDelivery)));
        html.WriteElementString("p", Shown(format.Say("draw.page.procedure")));
        html.WriteEndElement();
        html.WriteRaw("\n");
    }

    private static void Whole(XmlWriter html, Drawn drawn)
    {
        html.WriteStartElement("figure");
        html.WriteAttributeString("class", "whole");
        Both(html, drawn);
    }

    private static void Pair(XmlWriter html, string title, IReadOnlyCollection<Drawn> drawings)
    {
        if (drawings.Count == 0)
            return;
        html.WriteElementString("h2", title);
        html.WriteStartElement("div");
        html.WriteAttributeString("class", "pair");
        foreach (var drawn in drawings)
        {
            html.WriteStartElement("figure");
            Both(html, drawn);
        }
        html.WriteEndElement();
        html.WriteRaw("\n");
    }

    private static void Both(XmlWriter html, Drawn drawn)
    {
        html.WriteAttributeString("id", drawn.Name);
        html.WriteRaw("\n" + SvgCanvas.Element(drawn.Wide, "drawing--wide") + SvgCanvas.Element(drawn.Narrow, "drawing--narrow"));
        html.WriteEndElement();
        html.WriteRaw("\n");
    }

    private static void Table(XmlWriter html, DrawingSet set, Formatter format)
    {
        html.WriteStartElement("details");
        html.WriteElementString("summary", format.Say("draw.page.table"));
        html.WriteStartElement("div");
        html.WriteAttributeString("class", "table");
        html.WriteStartElement("table");
        html.WriteStartElement("thead");
        html.WriteStartElement("tr");
        foreach (string head in new[] { format.Say("draw.page.when"), format.Say("draw.page.who"), format.Say("draw.page.what") })
        {
            html.WriteStartElement("th");
            html.WriteAttributeString("scope", "col");
            html.WriteString(head);
            html.WriteEndElement();
        }
        html.WriteEndElement();
        html.WriteEndElement();
        html.WriteStartElement("tbody");
        foreach (var row in set.Rows)
        {
            html.WriteStartElement("tr");
            html.WriteStartElement("td");
            html.WriteAttributeString("class", "clock");
            html.WriteString(format.Between(row.From, row.To));
            html.WriteEndElement();
            html.WriteElementString("td", Shown(row.Lane));
            html.WriteElementString("td", Shown(row.What));
            html.WriteEndElement();
            html.WriteRaw("\n");
        }
        html.WriteEndElement();
        html.WriteEndElement();
        html.WriteEndElement();
        html.WriteEndElement();
        html.WriteRaw("\n");
    }

    private static string Shown(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));
}
