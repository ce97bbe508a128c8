using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>What a field holds.</summary>
public abstract record FieldKind
{
    internal abstract Sentence Expected(UnitSystem units);

    /// <summary>Whether a value can be read; where it can't, the reason is among the findings.</summary>
    internal virtual bool CanRead(SurveyNode node, string key, ReadingContext context) => true;
}

/// <summary>A mapping with fields of its own.</summary>
/// <param name="Group">Its fields.</param>
/// <param name="ShortKey">The key that a single word in place of the mapping is the value of; null where a mapping is needed.</param>
public sealed record KeysKind(FieldGroup Group, string? ShortKey = null) : FieldKind
{
    /// <summary>What a single word may be that stands for no key: the name of a mapping given elsewhere.</summary>
    internal TextKind? Name { get; init; }

    internal override Sentence Expected(UnitSystem units) => Hint ?? $"keys such as '{Group.Fields[0].Key}:' and '{Group.Fields[1].Key}:'";

    internal Sentence? Hint { get; init; }
}

/// <summary>A list.</summary>
/// <param name="Item">What each item is.</param>
/// <param name="Least">The fewest items.</param>
/// <param name="TakesOne">Whether a single value may stand for a list of one.</param>
public sealed record ListKind(FieldKind Item, int Least = 1, bool TakesOne = true) : FieldKind
{
    internal int? Most { get; init; }

    internal Sentence? Hint { get; init; }

    internal override Sentence Expected(UnitSystem units) => Hint ?? Item.Expected(units);

    internal override bool CanRead(SurveyNode node, string key, ReadingContext context) =>
        (node is ListNode list ? list.Items : [node]).All(item => Item.CanRead(item, key, context));
}

/// <summary>A single value that becomes one of the engine's.</summary>
/// <typeparam name="T">The engine's type.</typeparam>
public abstract record ValueKind<T> : FieldKind
    where T : notnull
{
    /// <summary>Reads the value; false with the reason among the findings.</summary>
    internal bool TryRead(SurveyNode node, string key, ReadingContext context, [MaybeNullWhen(false)] out T value)
    {
        value = default;
        Sentence expected = Expected(context.Units);
        if (node is TextNode text) return TryRead(text, key, expected, context, out value);
        context.Findings.Refuse(node, expected, "One value belongs here");
        return false;
    }

    internal sealed override bool CanRead(SurveyNode node, string key, ReadingContext context) => TryRead(node, key, context, out _);

    private protected abstract bool TryRead(
        TextNode text, string key, Sentence expected, ReadingContext context, [MaybeNullWhen(false)] out T value);
}

/// <summary>Text as it is.</summary>
/// <param name="What">What is expected, in a sentence.</param>
public sealed record TextKind(string What = "a name") : ValueKind<string>
{
    internal override Sentence Expected(UnitSystem units) => What;

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out string value)
    {
        value = text.Text;
        if (!text.Text.Any(c => Misleading.Is(c) || (char.IsControl(c) && c is not ('\n' or '\r' or '\t'))))
        {
            return true;
        }

        context.Findings.Refuse(text, "letters, digits, spaces and signs",
            $"'{key}' holds a character that cannot be seen, or that turns the direction of writing");
        return false;
    }
}

/// <summary>A whole number within limits.</summary>
public sealed record WholeKind(int Least, int Largest) : ValueKind<int>
{
    internal override Sentence Expected(UnitSystem units) => $"a whole number from {Least} to {Largest}";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out int value)
    {
        bool isNumber = int.TryParse(text.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out value);
        if (isNumber && value >= Least && value <= Largest) return true;
        context.Findings.Refuse(text, expected, $"'{key}' must be {expected}");
        return false;
    }
}

/// <summary>A number without a unit, within limits; words may stand for some of them.</summary>
/// <param name="Name">What it is, in a sentence.</param>
/// <param name="Least">The least possible.</param>
/// <param name="Largest">The largest possible.</param>
/// <param name="Words">Words for usual values; null where only a number will do.</param>
public sealed record NumberKind(string Name, double Least, double Largest, WordList<double>? Words = null) : ValueKind<double>
{
    internal Sentence? Hint { get; init; }

    internal override Sentence Expected(UnitSystem units) =>
        Hint ?? (Words is null
            ? (Sentence)$"{(Sentence)Name} from {Least} to {Largest}"
            : (Sentence)$"{Least} to {Largest}, or {Words.Expected(units)}");

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out double value)
    {
        if (Words is not null && !text.Text.Any(char.IsAsciiDigit)) return Words.TryRead(text, key, context, out value);
        bool isNumber = double.TryParse(text.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
        if (isNumber && value >= Least && value <= Largest) return true;
        context.Findings.Refuse(text, expected, $"This is not {(Sentence)Name}");
        return false;
    }
}

/// <summary>Yes or no.</summary>
public sealed record YesNoKind : ValueKind<bool>
{
    /// <summary>How the two may be written.</summary>
    internal static readonly string[] Spellings = ["yes", "no", "on", "off", "true", "false"];

    internal override Sentence Expected(UnitSystem units) => "yes or no";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out bool value)
    {
        string word = text.Text.ToLowerInvariant();
        value = word is "yes" or "true" or "on";
        if (Spellings.Contains(word)) return true;
        context.Findings.Refuse(text, expected, $"'{key}' is answered with yes or no", NearestWord.To(text.Text, ["yes", "no"]));
        return false;
    }
}

/// <summary>A date of the calendar.</summary>
public sealed record DateKind : ValueKind<LocalDate>
{
    internal override Sentence Expected(UnitSystem units) => "a date such as 2026-04-15";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out LocalDate value)
    {
        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text.Text);
        value = date.GetValueOrDefault(default);
        if (date.Success && value.Year is >= 1800 and <= 2200) return true;
        context.Findings.Refuse(text, expected, "This is not a date of the calendar");
        return false;
    }
}

/// <summary>A month and day that come back every year.</summary>
public sealed record MonthDayKind : ValueKind<AnnualDate>
{
    private static readonly AnnualDatePattern Pattern = AnnualDatePattern.CreateWithInvariantCulture("M-d");

    internal override Sentence Expected(UnitSystem units) => "a month and day such as 4-15 for 15 April";

    /// <summary>The month and day of a text; null where it is none.</summary>
    internal static AnnualDate? Parse(string text) => Pattern.Parse(text.Trim()) is { Success: true } date ? date.Value : null;

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out AnnualDate value)
    {
        AnnualDate? date = Parse(text.Text);
        value = date ?? default;
        if (date is not null) return true;
        string turned = string.Join('-', text.Text.Split('-').Select(part => part.Trim()).Reverse());
        context.Findings.Refuse(text, expected, "This is not a month and day", Parse(turned) is null ? null : turned);
        return false;
    }
}

/// <summary>A span of dates that comes back every year; it may run over the new year.</summary>
public sealed record DateSpanKind : ValueKind<PeriodOfYear>
{
    internal override Sentence Expected(UnitSystem units) => "two month-days such as 11-15..3-1 for 15 November to 1 March";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out PeriodOfYear value)
    {
        string[] ends = text.Text.Replace(" to ", "..", StringComparison.OrdinalIgnoreCase).Split("..");
        AnnualDate? from = MonthDayKind.Parse(ends[0]), to = MonthDayKind.Parse(ends[^1]);
        value = new PeriodOfYear(from ?? default, to ?? default);
        if (ends.Length == 2 && from is not null && to is not null && from != to) return true;
        context.Findings.Refuse(text, expected, "This is not a span of dates");
        return false;
    }
}

file static class ParseResults
{
    internal static T GetValueOrDefault<T>(this ParseResult<T> result, T otherwise) => result.Success ? result.Value : otherwise;
}
