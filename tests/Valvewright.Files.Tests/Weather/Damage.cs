using System.Text;

namespace Valvewright.Files.Tests.Weather;

/// <summary>Ways in which a file gets damaged.</summary>
internal static class Damage
{
    private static readonly string[] Oddities =
    [
        "1e308", "-1e308", "1e999", "99999999999999999999", "NaN", "Infinity", "-999", "-9999", "null", "--", "\"", "\"\"", ",,,,,,",
            "\0", "\r", "\n\n",
        "2021-13-45", "0000-00-00", "99991231", "\uFEFF", "\u2028", "٣", "{", "}", "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "\\ud800",
            "(", "[", "# latitude: x\n",
        "-END HEADER-", "-BEGIN HEADER-\n", "-0", ".", "-", "+1", "1.2.3", "0x10", "1_000",
    ];

    public static byte[] Done(byte[] sample, byte[] other, Random random)
    {
        List<byte> bytes = [.. sample];
        int times = 1 + random.Next(4);
        for (int i = 0; i < times; i++)
        {
            bytes = One(bytes, other, random);
        }

        return [.. bytes];
    }

    private static List<byte> One(List<byte> bytes, byte[] other, Random random)
    {
        int at = random.Next(bytes.Count + 1);
        switch (random.Next(12))
        {
            case 0 when at < bytes.Count:
                bytes[at] ^= (byte)(1 << random.Next(8));
                return bytes;
            case 1 when at < bytes.Count:
                bytes[at] = (byte)random.Next(256);
                return bytes;
            case 2:
                return bytes[..at];
            case 3:
                bytes.InsertRange(at, Encoding.UTF8.GetBytes(Oddities[random.Next(Oddities.Length)]));
                return bytes;
            case 4 or 5 or 6:
                return Lines(bytes, random);
            case 7:
                return Columns(bytes, random);
            case 8:
                return ReplaceNumber(bytes, at, random);
            case 9:
                int from = random.Next(other.Length);
                bytes.InsertRange(at, other[from..Math.Min(other.Length, from + random.Next(400))]);
                return bytes;
            case 10 when random.Next(8) == 0:
                return [.. random.Next(2) == 0 ? Encoding.Unicode.GetBytes(Encoding.UTF8.GetString([.. bytes]))
                    : Encoding.Latin1.GetBytes(Encoding.UTF8.GetString([.. bytes]))];
            case 11:
                int end = Math.Min(bytes.Count, at + random.Next(60));
                bytes.RemoveRange(at, end - at);
                return bytes;
            default:
                return bytes;
        }
    }

    private static List<byte> Lines(List<byte> bytes, Random random)
    {
        List<string> lines = [.. Encoding.Latin1.GetString([.. bytes]).Split('\n')];
        int one = random.Next(lines.Count), two = random.Next(lines.Count);
        switch (random.Next(3))
        {
            case 0: lines.Insert(two, lines[one]); break;
            case 1: lines.RemoveAt(one); break;
            default: (lines[one], lines[two]) = (lines[two], lines[one]); break;
        }

        return [.. Encoding.Latin1.GetBytes(string.Join('\n', lines))];
    }

    private static List<byte> Columns(List<byte> bytes, Random random)
    {
        string[] lines = Encoding.Latin1.GetString([.. bytes]).Split('\n');
        int one = random.Next(12), two = random.Next(12);
        bool all = random.Next(2) == 0;
        for (int line = 0; line < lines.Length; line++)
        {
            string[] fields = lines[line].Split(',');
            if ((all || random.Next(4) == 0) && one < fields.Length && two < fields.Length)
            {
                (fields[one], fields[two]) = (fields[two], fields[one]);
                lines[line] = string.Join(',', fields);
            }
        }

        return [.. Encoding.Latin1.GetBytes(string.Join('\n', lines))];
    }

    private static List<byte> ReplaceNumber(List<byte> bytes, int at, Random random)
    {
        while (at < bytes.Count && !char.IsAsciiDigit((char)bytes[at]))
        {
            at++;
        }

        int end = at;
        while (end < bytes.Count && (char.IsAsciiDigit((char)bytes[end]) || bytes[end] == '.'))
        {
            end++;
        }

        bytes.RemoveRange(at, end - at);
        string number = random.Next(3) == 0 ? Oddities[random.Next(Oddities.Length)] : random.Next(-5, 5000).ToString();
        bytes.InsertRange(at, Encoding.UTF8.GetBytes(number));
        return bytes;
    }
}
