namespace Seamwright.Materials;

/// <summary>Short name of a data sheet, unique in a shop's materials, for example <c>PU1</c>.</summary>
/// <param name="Value">The name as written in the file.</param>
public readonly record struct MaterialId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value;
}
