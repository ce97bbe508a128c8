using System.Collections.Frozen;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>Numbers in digits and words, English and Spanish, and ordinals.</summary>
internal static class Numerals
{
    private static readonly FrozenDictionary<string, int> Cardinals = Table(
        "zero:0 cero:0 oh:0 one:1 two:2 three:3 four:4 five:5 six:6 seven:7 eight:8 nine:9 ten:10 eleven:11 twelve:12 thirteen:13 " +
            "fourteen:14 fifteen:15 sixteen:16 seventeen:17 eighteen:18 nineteen:19 "
        + "twenty:20 thirty:30 forty:40 fourty:40 fifty:50 sixty:60 seventy:70 eighty:80 ninety:90 hundred:100 "
        + "un:1 uno:1 una:1 dos:2 tres:3 cuatro:4 cinco:5 seis:6 siete:7 ocho:8 nueve:9 diez:10 once:11 doce:12 trece:13 catorce:14 " +
            "quince:15 dieciseis:16 diecisiete:17 dieciocho:18 diecinueve:19 "
        + "veinte:20 veintiuno:21 veintiun:21 veintiuna:21 veintidos:22 veintitres:23 veinticuatro:24 veinticinco:25 veintiseis:26 " +
            "veintisiete:27 veintiocho:28 veintinueve:29 "
        + "treinta:30 cuarenta:40 cincuenta:50 sesenta:60 setenta:70 ochenta:80 noventa:90 cien:100 ciento:100 doscientos:200");

    private static readonly FrozenDictionary<string, int> Ordinals = Table(
        "first:1 second:2 third:3 fourth:4 fifth:5 sixth:6 seventh:7 eighth:8 ninth:9 tenth:10 twelfth:12 primer:1 primero:1 primera:1 " +
            "segundo:2 segunda:2 tercer:3 tercero:3 tercera:3 cuarto:4 cuarta:4 quinto:5 quinta:5 "
        + "sexto:6 sexta:6 septimo:7 septima:7 octavo:8 octava:8");

    /// <summary>All names.</summary>
    public static IEnumerable<string> Names => Cardinals.Keys.Concat(Ordinals.Keys);

    /// <summary>Whether it is the name of a number.</summary>
    public static bool Knows(string word) => Cardinals.ContainsKey(word) || Ordinals.ContainsKey(word);

    /// <summary>The cardinal number at a place and how many tokens it takes; null for none.</summary>
    public static (int Value, int Length)? At(IReadOnlyList<Token> tokens, int at)
    {
        Token? Next(int i) => at + i < tokens.Count ? tokens[at + i] : null;
        if (Next(0) is not { } first)
        {
            return null;
        }

        if (first.Kind == TokenKind.Number)
        {
            return first.Number >= 0 ? (first.Number, 1) : null;
        }

        int length = 1;
        if (first.Text is "a" && Next(1)?.Text == "hundred")
        {
            return Hundreds(100, 2);
        }

        if (Word(first) is not { } value)
        {
            return null;
        }

        if (value is > 0 and < 100 && Next(length)?.Text == "hundred")
        {
            return Hundreds(value * 100, length + 1);
        }

        if (value is 100 or 200)
        {
            return Hundreds(value, 1);
        }

        int units = Small(value, ref length);
        return units is > 20 and < 100 && Next(length)?.Text == "hundred" ? (units * 100, length + 1) : (units, length);

        int Small(int tens, ref int used)
        {
            if (tens is >= 20 and <= 90 && tens % 10 == 0)
            {
                int joined = Next(used)?.Text is "y" or "-" ? 1 : 0;
                if (Next(used + joined) is { Kind: TokenKind.Word } next && Word(next) is >= 1 and <= 9 and var unit
                    && (joined == 0 || tens >= 30 || Next(used)?.Text == "-"))
                {
                    used += joined + 1;
                    return tens + unit;
                }
            }

            return tens;
        }

        (int, int) Hundreds(int hundreds, int used)
        {
            int joined = Next(used)?.Text == "and" ? 1 : 0;
            if (Next(used + joined) is { Kind: TokenKind.Word } next && Word(next) is >= 1 and < 100 and var rest)
            {
                used += joined + 1;
                return (hundreds + Small(rest, ref used), used);
            }

            return (hundreds, used);
        }
    }

    /// <summary>The ordinal number at a place and how many tokens it takes: "third", "3rd", "3.º".</summary>
    public static (int Value, int Length)? OrdinalAt(IReadOnlyList<Token> tokens, int at)
    {
        if (at >= tokens.Count)
        {
            return null;
        }

        if (Ordinals.TryGetValue(tokens[at].Known, out int value))
        {
            return (value, 1);
        }

        return tokens[at].Number is > 0 and < 32 and var number && at + 1 < tokens.Count && tokens[at + 1].Glued && tokens[at + 1].Text
            is "st" or "nd" or "rd" or "th" or "er" or "o" or "a" or "ro" or "ra" or "do" or "da" or "to" or "ta" or "º" or "ª"
            ? (tokens[at].Number, 2)
            : null;
    }

    private static int? Word(Token token) => token.Kind == TokenKind.Word && Cardinals.TryGetValue(token.Known, out int value)
        ? value : null;

    private static FrozenDictionary<string, int> Table(string pairs) =>
        pairs.Split(' ').Select(pair => pair.Split(':')).ToFrozenDictionary(
            pair => pair[0], pair => int.Parse(pair[1], System.Globalization.CultureInfo.InvariantCulture), StringComparer.Ordinal);
}
