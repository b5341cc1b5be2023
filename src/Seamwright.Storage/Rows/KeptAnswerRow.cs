using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>What was answered to a program's request, so that the same request gets the same answer again.</summary>
internal sealed class KeptAnswerRow
{
    public required Guid ProgramKey { get; init; }

    /// <summary>Name that the program gave its request.</summary>
    public required string Name { get; init; }

    /// <summary>SHA-256 over method, path and body, hexadecimal.</summary>
    public required string Request { get; init; }

    /// <summary>The run of the server in which it began: one that was cut off by its end is not waited for.</summary>
    public required Guid Run { get; set; }

    public required Instant Began { get; set; }

    /// <summary>Status of the answer; null = not answered yet.</summary>
    public int? Status { get; set; }

    /// <summary>Body of the answer.</summary>
    public string? Body { get; set; }

    /// <summary>Version of what was made, as it was told; null = none.</summary>
    public string? Tag { get; set; }

    /// <summary>Where it is; null = nowhere.</summary>
    public string? Location { get; set; }
}
