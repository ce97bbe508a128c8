using System.Text;
using Valvewright.Engine.Values;

namespace Valvewright.Cli.Output;

/// <summary>
/// What a command will print. Nothing reaches standard output before the command has ended well, so that a reader, or
/// a program behind a pipe, never sees half an answer.
/// </summary>
internal sealed class Sheet(bool json, Progress progress)
{
    private readonly StringBuilder text = new();
    private string? document;

    /// <summary>Columns of a page of text.</summary>
    public const int Width = 80;

    /// <summary>Says what is being done when it takes more than a second.</summary>
    public Progress Progress => progress;

    /// <summary>Whether <c>--json</c> was given.</summary>
    public bool IsJson => json;

    /// <summary>Sets the answer that <c>--json</c> prints.</summary>
    public void Answer<T>(T value) => document = json ? Json.Write(value) : null;

    /// <summary>A paragraph, broken at 80 columns; following lines are indented like the first, by <paramref name="hang"/> more.</summary>
    public void Say(string paragraph = "", int hang = 0)
    {
        foreach (string line in Wrap.Lines(paragraph, Width, hang))
        {
            text.Append(line).Append('\n');
        }
    }

    /// <summary>A heading with a rule of its own length below it.</summary>
    public void Heading(string heading)
    {
        if (text.Length > 0)
        {
            Say();
        }

        Say(heading);
        Say(new string('-', Math.Min(heading.Length, Width)));
    }

    /// <summary>A table, as wide as it needs to be up to 80 columns.</summary>
    public void Show(Table table)
    {
        foreach (string line in table.Lines(Width))
        {
            text.Append(line).Append('\n');
        }
    }

    /// <summary>Text that is laid out already.</summary>
    public void Verbatim(string block) => text.Append(block.ReplaceLineEndings("\n").TrimEnd('\n')).Append('\n');

    /// <summary>Prints it all.</summary>
    public void Release(TextWriter output)
    {
        output.Write(json ? (document ?? throw new InvalidOperationException("The command gave no answer for --json.")) + "\n" : text.ToString());
        output.Flush();
    }
}
