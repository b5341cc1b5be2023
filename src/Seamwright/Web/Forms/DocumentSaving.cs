using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Seamwright.Files;
using Seamwright.Files.Format;
using Seamwright.Storage;

namespace Seamwright.Program.Web.Forms;

/// <summary>What became of a document form: where to look for what is wrong.</summary>
internal static class DocumentProblems
{
    /// <summary>Problems as sentences, by the input they belong to.</summary>
    /// <param name="problems">What the reader said.</param>
    /// <param name="document">The document that was read.</param>
    /// <param name="section">Its description, of which the form was made.</param>
    /// <param name="stem">What the reader puts before the fields of this document, for example <c>sheets[MS1].</c>; empty = nothing.</param>
    /// <param name="words">Texts.</param>
    public static IEnumerable<KeyValuePair<string, string>> Sentences(ImmutableArray<FileProblem> problems, JsonObject document, Section section, string stem, Words words)
    {
        var form = DocumentForm.Parts(section, document);
        return problems.Select(problem =>
        {
            string field = FieldOf(problem);
            if (stem.Length > 0 && field.StartsWith(stem, StringComparison.Ordinal))
                field = field.IndexOf("].", StringComparison.Ordinal) is var end and > 0 ? field[(end + 2)..] : "";
            string sentence = IsMissing(problem) ? Missing(problem, words) : words.Say(problem.Key, [.. problem.Args]);
            return new KeyValuePair<string, string>(DocumentForm.PlaceOf(DocumentForm.InputOf(field, document), form), field.Length > 0 ? $"{field}: {sentence}" : sentence);
        });
    }

    // A whole part is no single thing to be typed: its example, written as in a file, would help nobody here.
    private static string Missing(FileProblem problem, Words words) => problem.Args[1] is ['[' or '{', ..]
        ? words.Say("web.form.missing-part", DocumentForm.Label(problem.Args[0]))
        : words.Say("web.form.missing", DocumentForm.Label(problem.Args[0]), problem.Args[1]);

    /// <summary>The field that a problem is about; the reader tells a missing one by the section it is missing in.</summary>
    public static string FieldOf(FileProblem problem) => !IsMissing(problem) ? problem.Field : problem.Field.Length == 0 ? problem.Args[0] : $"{problem.Field}.{problem.Args[0]}";

    /// <summary>Whether something is not there that must be.</summary>
    public static bool IsMissing(FileProblem problem) => problem.Key == "key.missing";

    /// <summary>The sentence for a saving that did not happen; null = it did.</summary>
    /// <param name="outcome">What became of it.</param>
    /// <param name="words">Texts.</param>
    public static string? Refusal(SaveOutcome outcome, Words words) => outcome switch
    {
        SaveOutcome.Saved => null,
        SaveOutcome.Overtaken(var stored, _) => words.Say("web.doc.overtaken", stored.ChangedBy),
        _ => words["web.doc.gone"],
    };
}
