using System.Text.Json;
using Valvewright.App.Link;
using Valvewright.App.Person;
using Valvewright.App.Tests.Texts;
using Valvewright.App.Texts;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;
using Valvewright.Records.Views;

namespace Valvewright.App.Tests.Link;

/// <summary>What the server refuses is told in the person's language, what was found and expected besides; what has no words is quoted, not
/// lost.</summary>
public sealed class TroubleToldTests
{
    private static readonly PageWords English = new(new Preferences(null!));

    private static Trouble Trouble(string kind, Sentence detail, Sentence? found = null, Sentence? expected = null,
        ListOf<TextProblem>? problems = null, bool isOld = false)
    {
        ProblemDocument document = new($"/problems/{kind}", kind, 400, detail.Text)
        {
            Found = found?.Text,
            Expected = expected?.Text,
            Problems = problems,
            Said = isOld ? null : new SaidOfProblem(SentenceParts.Of(detail), null, found is null ? null : SentenceParts.Of(found),
                expected is null ? null : SentenceParts.Of(expected)),
        };
        return Valvewright.App.Link.Trouble.Read(400, JsonSerializer.Serialize(document, Json.Options));
    }

    [Fact]
    public async Task It_is_told_with_what_was_found_and_what_would_do()
    {
        Trouble trouble = Trouble("wrong-input", "This date cannot be right.", $"{"1066-10-14"}", "a date of the years 1950 to 2199");
        Assert.Equal("This date cannot be right. Found: 1066-10-14. Expected: a date of the years 1950 to 2199.", English.Told(trouble));
        Assert.Equal("Esta fecha no puede ser correcta. Se encontró: 1066-10-14. Se espera: una fecha de los años 1950 a 2199.",
            (await InSpanish.Words()).Told(trouble));
    }

    [Fact]
    public async Task Problems_of_a_text_are_told_by_line()
    {
        Sentence message = "Unknown column";
        TextProblem problem = new("fleet.csv", 3, 2, "batery", "", "battery_v", message.Text, "fleet.csv:3:2")
            { Said = new SaidOfProblem(SentenceParts.Of(message)) };
        Assert.Equal("La tabla no se puede usar tal como está. No se guardó nada. Línea 3: No existe esa columna: batery.",
            (await InSpanish.Words())
                .Told(Trouble("wrong-text", "The table cannot be used as it is. Nothing was stored.", problems: [problem])));
    }

    [Fact]
    public async Task What_the_page_knows_better_it_says_itself() =>
        Assert.Equal("No se envió el archivo meteorológico que nombran los datos del sitio.", (await InSpanish.Words()).Told(
            Trouble("weather-missing", "The survey names a weather file that has not been sent. Send it to the site's weather address.")));

    [Fact]
    public async Task What_is_sent_beside_English_alone_or_without_words_is_quoted()
    {
        PageWords spanish = await InSpanish.Words();
        Assert.Equal("El servidor dice, en inglés: «This date cannot be right.»",
            spanish.Told(Trouble("wrong-input", "This date cannot be right.", isOld: true)));
        Assert.Equal("El servidor dice, en inglés: «too odd»", spanish.Told(Trouble("never-heard-of", "too odd")));
        Assert.Equal("El servidor dice, en inglés: «HTTP 500»", spanish.Told(Valvewright.App.Link.Trouble.Read(500, "<html>")));
        Assert.Equal(
            "Ningún calendario con tan pocas visitas cumple estos límites, o no hay plantas permanentes. Pida más visitas o menos límites.",
                spanish.Told(Trouble("no-season", "A reason that nobody has worded.")));
        Assert.Equal("too odd", English.Told(Trouble("never-heard-of", "too odd", isOld: true)));
    }
}
