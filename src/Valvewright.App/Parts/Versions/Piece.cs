namespace Valvewright.App.Parts.Versions;

/// <summary>Which version of a piece is taken.</summary>
public enum Side
{
    /// <summary>What the other person wrote.</summary>
    Theirs,

    /// <summary>What was written here.</summary>
    Yours,

    /// <summary>Theirs, and yours after it; lines only.</summary>
    Both,
}

/// <summary>A piece of a record of which two people made versions: some lines of a text, or a member.</summary>
/// <param name="Name">The member's name; empty for lines.</param>
/// <param name="Line">The first line in what both began with, from 1; 0 for a member.</param>
/// <param name="Common">What both began with; null where that is not known.</param>
/// <param name="Theirs">What the other person made of it.</param>
/// <param name="Yours">What was made of it here.</param>
public sealed record Piece(string Name, int Line, ListOf<string>? Common, ListOf<string> Theirs, ListOf<string> Yours)
{
    /// <summary>No one changed it, or both made the same change.</summary>
    public bool IsAgreed => Theirs.Equals(Yours);

    /// <summary>Both changed it, each in another way: a person must say which counts.</summary>
    public bool NeedsDecision => !IsAgreed && (Common is null || !(Common.Equals(Theirs) || Common.Equals(Yours)));

    /// <summary>The side that is taken where no one says otherwise: the one that changed it.</summary>
    public Side Usual => Common is not null && Common.Equals(Yours) ? Side.Theirs : Side.Yours;

    /// <summary>What it becomes.</summary>
    public ListOf<string> Taken(Side side) => side switch
    {
        Side.Theirs => Theirs,
        Side.Yours => Yours,
        _ => Theirs.Concat(Yours).ToListOf(),
    };
}
