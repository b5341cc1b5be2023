using System.Collections.Immutable;
using System.Text.Json;
using Seamwright.Files;
using Seamwright.Program.Web.Forms;

namespace Seamwright.Program.Web.Api;

/// <summary>Why a request is refused. The word stands in the answer, so that programs need not read sentences.</summary>
internal enum RefusalKind
{
    /// <summary>The body is no JSON.</summary>
    Unreadable = 40000,

    /// <summary>A parameter of the address cannot be read.</summary>
    WrongParameter = 40001,

    /// <summary>The request as such is not as HTTP wants it.</summary>
    WrongRequest = 40003,

    /// <summary>A request that makes something has no name of its own.</summary>
    Unnamed = 40002,

    /// <summary>No key, or none that opens.</summary>
    NoKey = 40100,

    /// <summary>The key has not this scope.</summary>
    NotAllowed = 40300,

    /// <summary>There is no such thing.</summary>
    NotThere = 40400,

    /// <summary>What is here cannot be asked that way.</summary>
    NotThisWay = 40500,

    /// <summary>There is one of that name already.</summary>
    ThereAlready = 40900,

    /// <summary>The same request is being worked on.</summary>
    StillRunning = 40901,

    /// <summary>Somebody else has it.</summary>
    Held = 40902,

    /// <summary>Somebody has changed it since.</summary>
    Overtaken = 41200,

    /// <summary>More than is taken at once.</summary>
    TooLarge = 41300,

    /// <summary>The body is of another type.</summary>
    OtherType = 41500,

    /// <summary>Something in the body is wrong.</summary>
    WrongContent = 42200,

    /// <summary>The name stands for another request.</summary>
    OtherRequest = 42201,

    /// <summary>Which version is to be changed was not said.</summary>
    WhichVersion = 42800,

    /// <summary>Too often.</summary>
    TooMany = 42900,

    /// <summary>Our mistake.</summary>
    Broken = 50000,
}

/// <summary>One thing that is wrong in a body.</summary>
/// <param name="Field">Where, as a path in the document, for example <c>joints[J2].look.width</c>; empty = the document as a whole.</param>
/// <param name="Detail">What is wrong and what would be right.</param>
internal sealed record WrongField(string Field, string Detail);

/// <summary>Problem details (RFC 9457).</summary>
/// <param name="Type">Where the kind of problem is explained; the word behind # is for programs.</param>
/// <param name="Title">The kind in words.</param>
/// <param name="Status">HTTP status.</param>
/// <param name="Detail">This one in words.</param>
/// <param name="Errors">Everything that is wrong in the body, field by field.</param>
internal sealed record ProblemBody(string Type, string Title, int Status, string Detail, ImmutableArray<WrongField>? Errors);

/// <summary>Refuses a request: every refusal has the same form.</summary>
internal static class Refusal
{
    public static Told Of(HttpContext context, RefusalKind fault, params ReadOnlySpan<object> facts) => Of(context, fault, null, facts);

    /// <summary>Refuses a document with everything that is wrong in it.</summary>
    public static Told Of(HttpContext context, IEnumerable<FileProblem> problems, string stem = "")
    {
        var words = WordsOf(context);
        ImmutableArray<WrongField> errors = [.. problems.Select(problem => new WrongField(Field(problem, stem), words.Say(problem.Key, [.. problem.Args])))];
        return Of(context, RefusalKind.WrongContent, errors, errors.Length);
    }

    /// <summary>Refuses a body for one field.</summary>
    public static Told Of(HttpContext context, string field, string key, params ReadOnlySpan<object> facts) =>
        Of(context, RefusalKind.WrongContent, [new WrongField(field, WordsOf(context).Say(key, facts))], 1);

    /// <summary>The word that stands for a kind of refusal.</summary>
    public static string WordOf(RefusalKind fault) => JsonNamingPolicy.KebabCaseLower.ConvertName(fault.ToString());

    /// <summary>The refusal that a bare status means.</summary>
    public static RefusalKind ByStatus(int status) => status switch
    {
        StatusCodes.Status401Unauthorized => RefusalKind.NoKey,
        StatusCodes.Status403Forbidden => RefusalKind.NotAllowed,
        StatusCodes.Status404NotFound => RefusalKind.NotThere,
        StatusCodes.Status405MethodNotAllowed => RefusalKind.NotThisWay,
        StatusCodes.Status413PayloadTooLarge => RefusalKind.TooLarge,
        StatusCodes.Status415UnsupportedMediaType => RefusalKind.OtherType,
        StatusCodes.Status429TooManyRequests => RefusalKind.TooMany,
        >= 400 and < 500 => RefusalKind.WrongRequest,
        _ => RefusalKind.Broken,
    };

    public static Told Of(HttpContext context, RefusalKind fault, ImmutableArray<WrongField>? errors, params ReadOnlySpan<object> facts)
    {
        var words = WordsOf(context);
        int status = (int)fault / 100;
        string word = WordOf(fault);
        return new(status, JsonSerializer.Serialize(new ProblemBody($"/api#{word}", words[$"api.title.{word}"], status, words.Say($"api.detail.{word}", facts), errors), Told.Options));
    }

    private static Words WordsOf(HttpContext context) => context.RequestServices.GetRequiredService<Words>();

    private static string Field(FileProblem problem, string stem)
    {
        string field = DocumentProblems.FieldOf(problem);
        return stem.Length > 0 && field.StartsWith(stem, StringComparison.Ordinal) && field.IndexOf("].", StringComparison.Ordinal) is var end and > 0 ? field[(end + 2)..] : field;
    }
}
