namespace Seamwright.Program.Commands;

/// <summary>What the program tells whoever started it.</summary>
public static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>The answer is no: refused, or no plan is possible.</summary>
    public const int Refused = 1;

    /// <summary>Used in a wrong way, or a file cannot be used.</summary>
    public const int WrongUse = 2;

    /// <summary>Our fault.</summary>
    public const int OurFault = 3;
}
