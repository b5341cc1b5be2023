namespace Seamwright.Program.Printing;

/// <summary>A sentence used as a part of another one.</summary>
internal static class Sentence
{
    /// <summary>Without its full stop.</summary>
    public static string Phrase(string sentence) => sentence.EndsWith('.') ? sentence[..^1] : sentence;
}
