using Valvewright.App.Person;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Texts;

namespace Valvewright.App.Texts;

/// <summary>The page's texts in the person's language; each area of the page has files of its own,
/// <c>Texts/&lt;area&gt;.&lt;code&gt;.json</c>.</summary>
public sealed class PageWords(Preferences preferences)
{
    private static readonly Lazy<Wording> English =
        new(() => Wording.Of(Language.English, typeof(PageWords).Assembly, "Valvewright.App.Texts."));
    private static readonly Lazy<Wording> Spanish =
        new(() => Wording.Of(Language.Spanish, typeof(PageWords).Assembly, "Valvewright.App.Texts."));

    /// <summary>The texts of the page as they stand in the person's language.</summary>
    public Wording All => In(preferences.Language);

    /// <summary>The texts that the page shares with cards and the command.</summary>
    public Wording Common => Wording.In(preferences.Language);

    /// <summary>Amounts and times as the device shows them elsewhere: for what is of no site, or of one that is not known here.</summary>
    public SiteWords OfDevice => new(preferences.Units, preferences.Clock, Common);

    /// <summary>The text of that name.</summary>
    /// <exception cref="KeyNotFoundException">No text has the name.</exception>
    public string this[string name] => All[name];

    /// <summary>The page's texts in one language.</summary>
    public static Wording In(Language language) => language == Language.Spanish ? Spanish.Value : English.Value;

    /// <summary>A text that comes in both languages, in the person's.</summary>
    public string Of(Bilingual text) => (text ?? Bilingual.None).In(preferences.Language);

    /// <summary>The text with its places filled.</summary>
    public string Fill(string name, params ReadOnlySpan<(string Place, object Value)> values) => All.Fill(name, values);

    /// <summary>A percent as the language writes it.</summary>
    public string Percent(object number) => All.Percent(number);

    /// <summary>A part of a whole as percent; a dash where there is none.</summary>
    public string Share(double part) => double.IsNaN(part) ? "–" : Percent(SiteWords.Number(100 * part, 0));

    /// <summary>The text for that many things, <c>name.one</c> or <c>name.other</c>.</summary>
    public string Count(string name, int n) => All.Count(name, n);

    /// <summary>Whether a sentence has words in the person's language.</summary>
    public bool Speaks(Sentence sentence) => preferences.Language == Language.English || Sentences.IsWorded(sentence);

    /// <summary>A sentence of the engine or of the readers, with its amounts in a site's units.</summary>
    public string Say(Sentence sentence, UnitSystem units = UnitSystem.Metric) => Sentences.Say(sentence, preferences.Language, units);
}
