using System.Text;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>
/// What a command will print. Nothing reaches standard output before the command has ended well, so that a reader, or
/// a program behind a pipe, never sees half an answer.
/// </summary>
/// <param name="json">Whether <c>--json</c> was given.</param>
/// <param name="progress">Says what is being done.</param>
/// <param name="language">The language that people are spoken to in.</param>
internal sealed class Sheet(bool json, Progress progress, Language language = Language.English)
{
    private readonly StringBuilder text = new();
    private string? document;

    /// <summary>Columns of a page of text.</summary>
    public const int Width = 80;

    /// <summary>Says what is being done when it takes more than a second.</summary>
    public Progress Progress => progress;

    /// <summary>Whether <c>--json</c> was given.</summary>
    public bool IsJson => json;

    /// <summary>The language that people are spoken to in.</summary>
    public Language Language => language;

    /// <summary>A sentence in that language.</summary>
    public string In(Sentence sentence) => Sentences.Say(sentence, language);

    /// <summary>Sets the answer that <c>--json</c> prints.</summary>
    public void Answer<T>(T value) => document = json ? Json.Write(value) : null;

    /// <summary>An empty line.</summary>
    public void Say() => text.Append('\n');

    /// <summary>A paragraph, broken at 80 columns; following lines are indented like the first, by <paramref name="hang"/> more.</summary>
    public void Say(Sentence paragraph, int hang = 0)
    {
        foreach (string line in Wrap.Lines(In(paragraph), Width, hang))
        {
            text.Append(line).Append('\n');
        }
    }

    /// <summary>A heading with a rule of its own length below it.</summary>
    public void Heading(Sentence heading)
    {
        string words = In(heading);
        if (text.Length > 0)
        {
            Say();
        }

        Say(words);
        Say(new string('-', Math.Min(words.Length, Width)));
    }

    /// <summary>A table, as wide as it needs to be up to 80 columns.</summary>
    public void Show(Table table)
    {
        foreach (string line in table.Lines(Width, In))
        {
            text.Append(line).Append('\n');
        }
    }

    /// <summary>Text that is laid out already.</summary>
    public void Verbatim(string block) => text.Append(block.ReplaceLineEndings("\n").TrimEnd('\n')).Append('\n');

    /// <summary>Prints it all.</summary>
    public void Release(TextWriter output)
    {
        output.Write(json ? (document ?? throw new InvalidOperationException("The command gave no answer for --json.")) + "\n"
            : text.ToString());
        output.Flush();
    }
}
