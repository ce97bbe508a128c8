using System.Text;
using System.Text.Unicode;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Weather.Text;

/// <summary>The text of a file, or the problem that keeps it from being one.</summary>
internal static class SourceText
{
    private static ReadOnlySpan<byte> Utf8Mark => [0xEF, 0xBB, 0xBF];

    /// <summary>Reads a whole file as UTF-8; a folder, a missing, empty, too large, locked or otherwise encoded file is a located
    /// problem.</summary>
    public static (string? Text, Problem? Problem) Load(string path, long largestBytes)
    {
        try
        {
            if (Directory.Exists(path))
            {
                return (null, new Problem(path, 0, 0, "a folder", "a file of daily weather", null, "this is a folder, not a file"));
            }

            FileInfo file = new(path);
            if (!file.Exists)
            {
                return (null, Missing(path));
            }

            if (file.Length > largestBytes)
            {
                return (null, TooLarge(path, file.Length, largestBytes));
            }

            return Decode(path, GivenFile.ReadBytes(path, largestBytes));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return (null, new Problem(
                path, 0, 0, "", "a file that can be read", null, $"the file cannot be read ({e.Message.TrimEnd('.')})"));
        }
    }

    /// <summary>Takes bytes as UTF-8 text, with or without a byte order mark.</summary>
    public static (string? Text, Problem? Problem) Decode(string path, ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length == 0)
        {
            return (null, new Problem(path, 0, 0, "0 bytes", "daily weather", null, "the file is empty"));
        }

        if (OtherEncoding(bytes) is { } encoding)
        {
            return (null, new Problem(path, 1, 1, encoding, "UTF-8 text", "UTF-8", "the file is in another encoding; save it as UTF-8"));
        }

        bytes = bytes.StartsWith(Utf8Mark) ? bytes[3..] : bytes;
        if (!Utf8.IsValid(bytes))
        {
            return (null, NotUtf8(path, bytes));
        }

        int nul = bytes.IndexOf((byte)0);
        if (nul >= 0)
        {
            (int line, int column) = PlaceOf(bytes, nul);
            return (null, new Problem(path, line, column, "a zero byte", "text", null, "this is not a text file, or it is damaged here"));
        }

        string text = Encoding.UTF8.GetString(bytes);
        return string.IsNullOrWhiteSpace(text)
            ? (null, new Problem(path, 1, 1, "only blanks", "daily weather", null, "the file is empty"))
            : (text, null);
    }

    private static string? OtherEncoding(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length >= 2 && ((bytes[0], bytes[1]) is (0xFF, 0xFE) or (0xFE, 0xFF)))
        {
            return "the byte order mark of UTF-16";
        }

        if (bytes.Length < 8)
        {
            return null;
        }

        bool odd = bytes[1] == 0 && bytes[3] == 0 && bytes[5] == 0 && bytes[7] == 0;
        bool even = bytes[0] == 0 && bytes[2] == 0 && bytes[4] == 0 && bytes[6] == 0;
        return odd || even ? "UTF-16 text" : null;
    }

    private static Problem Missing(string path)
    {
        string? folder = Path.GetDirectoryName(Path.GetFullPath(path));
        IEnumerable<string> neighbours = folder is not null && Directory.Exists(folder)
            ? Directory.EnumerateFiles(folder).Select(name => Path.GetFileName(name)).Order(StringComparer.Ordinal).Take(2000)
            : [];
        return new Problem(path, 0, 0, "", "a file of daily weather", NearestWord.To(Path.GetFileName(path), neighbours), "no such file");
    }

    private static Problem TooLarge(string path, long bytes, long largestBytes) => new(
        path, 0, 0, $"{bytes / 1e6:0} MB", $"at most {largestBytes / 1e6:0} MB", null,
        "the file is too large for one station's daily weather; cut it to the station and the years wanted");

    private static Problem NotUtf8(string path, ReadOnlySpan<byte> bytes)
    {
        int at = FirstInvalid(bytes);
        (int line, int column) = PlaceOf(bytes, at);
        return new Problem(
            path, line, column, $"byte 0x{bytes[at]:X2}", "UTF-8 text", "UTF-8",
            "the text is not UTF-8 (Latin-1 or Windows-1252 perhaps); save it as UTF-8");
    }

    private static int FirstInvalid(ReadOnlySpan<byte> bytes)
    {
        int at = 0;
        while (at < bytes.Length && Rune.DecodeFromUtf8(bytes[at..], out _, out int length) == System.Buffers.OperationStatus.Done)
        {
            at += length;
        }

        return Math.Min(at, bytes.Length - 1);
    }

    private static (int Line, int Column) PlaceOf(ReadOnlySpan<byte> bytes, int at)
    {
        ReadOnlySpan<byte> before = bytes[..at];
        int lineStart = before.LastIndexOf((byte)'\n') + 1;
        return (before.Count((byte)'\n') + 1, Encoding.UTF8.GetCharCount(before[lineStart..]) + 1);
    }
}
