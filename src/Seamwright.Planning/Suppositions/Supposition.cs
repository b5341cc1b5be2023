using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Suppositions;

/// <summary>One fact taken to be otherwise. It turns a repair into the one that would then be planned, and knows nothing of planning.</summary>
public abstract record Supposition
{
    /// <summary>What is supposed, in words.</summary>
    public abstract Reason InWords { get; }

    /// <summary>The same in one line that is equal wherever the supposition is equal: part of the identity of what is planned.</summary>
    public abstract string Key { get; }

    /// <summary>The repair as supposed, or why it cannot be supposed of this one. Pure.</summary>
    public abstract Supposed Apply(RepairInput input);

    /// <summary>Several at once, one on top of the other, in the order given.</summary>
    /// <returns>The repair as supposed; without one where any cannot be supposed, with every reason.</returns>
    public static Supposed ApplyAll(RepairInput input, IEnumerable<Supposition> suppositions)
    {
        var problems = ImmutableArray.CreateBuilder<Reason>();
        var now = input;
        foreach (var supposition in suppositions)
        {
            var next = supposition.Apply(now);
            problems.AddRange(next.Problems);
            if (next.Input is { } changed)
                now = changed with { ContentHash = Hash(now.ContentHash, supposition.Key) };
        }
        return problems.Count > 0 ? new Supposed(null, problems.ToImmutable()) : new Supposed(now, []);
    }

    /// <summary>A repair that can be supposed.</summary>
    protected static Supposed Fits(RepairInput input) => new(input, []);

    /// <summary>A supposition that does not fit the repair.</summary>
    protected static Supposed Not(string key, params ReadOnlySpan<object> facts) => new(null, [Reason.Of(key, facts)]);

    private static string Hash(string content, string key) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{content}|suppose {key}")));
}

/// <summary>What came of a supposition.</summary>
/// <param name="Input">The repair as supposed; null where there is a problem.</param>
/// <param name="Problems">Why it cannot be supposed of this repair; empty where it can.</param>
public sealed record Supposed(RepairInput? Input, ImmutableArray<Reason> Problems);
