using System.Globalization;
using System.Text;
using Seamwright.Storage;
using Seamwright.Storage.Queries;

namespace Seamwright.Program.Web.Starting;

/// <summary>Short names for new repairs: what was replaced and a number, easy to say aloud.</summary>
internal static class NewName
{
    private const int Longest = 40;

    /// <summary>A name that no repair has.</summary>
    public static async Task<string> For(ShopStore store, string title, CancellationToken stop)
    {
        string stem = Stem(title);
        for (int number = 1; ; number++)
        {
            string name = number == 1 ? stem : string.Create(CultureInfo.InvariantCulture, $"{stem}-{number}");
            if (await store.RepairDocument(name, stop) is null)
                return name;
        }
    }

    private static string Stem(string title)
    {
        var text = new StringBuilder();
        foreach (char c in title.Normalize(NormalizationForm.FormD).ToLowerInvariant())
        {
            if (char.IsAsciiLetterOrDigit(c))
                text.Append(c);
            else if (text.Length > 0 && text[^1] != '-' && !char.IsControl(c) && CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark)
                text.Append('-');
        }
        string stem = text.ToString().Trim('-');
        return stem.Length == 0 ? "repair" : stem.Length > Longest ? stem[..Longest].Trim('-') : stem;
    }
}
