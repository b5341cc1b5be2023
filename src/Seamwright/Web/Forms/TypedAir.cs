using Seamwright.Air;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Units;

namespace Seamwright.Program.Web.Forms;

/// <summary>A reading of the air as people type it, read by the same rules as in files and refused in the same words.</summary>
internal static class TypedAir
{
    /// <summary>Reads both; null where one cannot be read, with the reason under its name.</summary>
    public static AirState? Read(string? temperature, string? humidity, List<KeyValuePair<string, string>> wrong, Words words)
    {
        var problems = new ProblemList();
        double? kelvin = QuantityText.Read(FieldOf("temperature", temperature, problems), Measures.AirTemperature);
        double? fraction = QuantityText.Read(FieldOf("humidity", humidity, problems), Measures.Humidity);
        wrong.AddRange(problems.Shown().Select(problem => new KeyValuePair<string, string>(problem.File, words.Say(problem.Key, [.. problem.Args]))));
        return kelvin is { } t && fraction is { } rh ? new AirState(Temperature.FromKelvin(t), RelativeHumidity.FromFraction(rh)) : null;
    }

    private static Field FieldOf(string name, string? text, ProblemList problems) =>
        new(new ScalarNode(default, (text ?? "").Trim(), Plain: false), name, new SourceFile(name, problems));
}
