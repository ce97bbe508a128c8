using System.Text;

namespace Valvewright.Files.Timelines;

/// <summary>Content lines of an iCalendar object (RFC 5545, section 3.1): escaped, folded at 75 octets, ended with CRLF.</summary>
internal sealed class CalendarText
{
    private const int OctetsInALine = 75;
    private readonly StringBuilder text = new();

    /// <summary>A property whose value needs no escaping.</summary>
    public CalendarText Line(string name, string value)
    {
        int octets = 0;
        foreach (Rune rune in $"{name}:{value}".EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > OctetsInALine)
            {
                text.Append("\r\n ");
                octets = 1;
            }

            text.Append(rune);
            octets += rune.Utf8SequenceLength;
        }

        text.Append("\r\n");
        return this;
    }

    /// <summary>A property of type TEXT (section 3.3.11).</summary>
    public CalendarText Words(string name, string value)
    {
        StringBuilder safe = new();
        foreach (char c in value.ReplaceLineEndings("\n"))
        {
            safe.Append(c switch
            {
                '\\' => "\\\\",
                ';' => "\\;",
                ',' => "\\,",
                '\n' => "\\n",
                _ when char.IsControl(c) => " ",
                _ => c.ToString(),
            });
        }

        return Line(name, safe.ToString());
    }

    /// <inheritdoc/>
    public override string ToString() => text.ToString();
}
