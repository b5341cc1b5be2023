namespace Seamwright.Program.Printing;

/// <summary>Signs to draw with.</summary>
public sealed record Marks
{
    /// <summary>Line after a title.</summary>
    public required char Rule { get; init; }

    /// <summary>A line upright.</summary>
    public required char Upright { get; init; }

    /// <summary>Before an item of a list.</summary>
    public required char Bullet { get; init; }

    /// <summary>Before a remark on the line above.</summary>
    public required string Under { get; init; }

    /// <summary>From one thing to the next.</summary>
    public required string Then { get; init; }

    /// <summary>Work, and the work beside it.</summary>
    public required (char One, char Other) Work { get; init; }

    /// <summary>Something that happens by itself.</summary>
    public required char Cure { get; init; }

    /// <summary>Its end.</summary>
    public required char Ready { get; init; }

    /// <summary>Hours in which nobody works.</summary>
    public required char Closed { get; init; }

    /// <summary>The paint slot.</summary>
    public required char Slot { get; init; }

    /// <summary>A lamp or a booth heats.</summary>
    public required char Heat { get; init; }

    /// <summary>An idle moment.</summary>
    public required char Idle { get; init; }

    /// <summary>Heights of a curve from nothing to full.</summary>
    public required string Levels { get; init; }

    /// <summary>Block and line characters.</summary>
    public static Marks Drawn { get; } = new()
    {
        Rule = '─',
        Upright = '│',
        Bullet = '•',
        Under = "└ ",
        Then = " → ",
        Work = ('█', '▓'),
        Cure = '━',
        Ready = '◆',
        Closed = '░',
        Slot = '┃',
        Heat = '≈',
        Idle = '·',
        Levels = " ▁▂▃▄▅▆▇█",
    };

    /// <summary>ASCII alone.</summary>
    public static Marks Typed { get; } = new()
    {
        Rule = '-',
        Upright = '|',
        Bullet = '*',
        Under = "- ",
        Then = " -> ",
        Work = ('#', '%'),
        Cure = '=',
        Ready = '>',
        Closed = '/',
        Slot = '|',
        Heat = '~',
        Idle = '.',
        Levels = " .:-=+*%#",
    };
}
