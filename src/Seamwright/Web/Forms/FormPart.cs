using System.Collections.Immutable;

namespace Seamwright.Program.Web.Forms;

/// <summary>A part of a form that was made from the description of a document.</summary>
/// <param name="Name">Name of its inputs, or the stem of their names.</param>
/// <param name="Label">What people read.</param>
/// <param name="Hint">What it means, and what holds where it is left out.</param>
public abstract record FormPart(string Name, string Label, string Hint);

/// <summary>One input.</summary>
/// <param name="Name">Name of the input.</param>
/// <param name="Label">What people read.</param>
/// <param name="Hint">What it means, and what holds where it is left out.</param>
/// <param name="Value">As it is written in the document.</param>
/// <param name="Required">Must be filled in.</param>
/// <param name="Choices">Words to choose from; empty = free text.</param>
public sealed record FormInput(string Name, string Label, string Hint, string Value, bool Required, ImmutableArray<string> Choices) : FormPart(Name, Label, Hint)
{
    /// <summary>What people read in place of a choice's word; a word that is not there stands for itself.</summary>
    public ImmutableDictionary<string, string> Shown { get; init; } = ImmutableDictionary<string, string>.Empty;
}

/// <summary>Inputs that belong together.</summary>
/// <param name="Name">Stem of their names.</param>
/// <param name="Label">What people read.</param>
/// <param name="Hint">What it means.</param>
/// <param name="Parts">Its parts, in the order of the description.</param>
/// <param name="IsExtra">True where it is an empty place for one more entry of a list, or a part that may be left out and is.</param>
public sealed record FormGroup(string Name, string Label, string Hint, ImmutableArray<FormPart> Parts, bool IsExtra) : FormPart(Name, Label, Hint);
