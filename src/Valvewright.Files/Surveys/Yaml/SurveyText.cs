using System.Text;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>Gets the text of a site file, or says why there is none.</summary>
internal static class SurveyText
{
    /// <summary>A site file is written by a person; no person writes more than this.</summary>
    internal const long LargestBytes = 2_000_000;

    internal static string? Load(string file, Findings findings)
    {
        if (Directory.Exists(file))
        {
            findings.RefuseFile(
                "a folder", $"a site file, or a folder that holds {SurveyFiles.UsualName}", "This is a folder and holds no site file");
            return null;
        }

        byte[] bytes;
        try
        {
            FileInfo info = new(file);
            if (!info.Exists)
            {
                findings.RefuseFile("nothing", "a site file", "File not found");
                return null;
            }

            if (info.Length > LargestBytes)
            {
                findings.RefuseFile($"{info.Length} bytes", $"at most {LargestBytes} bytes", "The file is too large to be a site file");
                return null;
            }

            bytes = Problems.GivenFile.ReadBytes(file, LargestBytes);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            findings.RefuseFile(error.Message, "a file that can be read", "The file cannot be read");
            return null;
        }

        return Decode(bytes, findings);
    }

    /// <summary>UTF-8 with or without its mark, UTF-16 and UTF-32 with theirs; anything else is refused where it first goes
    /// wrong.</summary>
    internal static string? Decode(byte[] bytes, Findings findings)
    {
        (Encoding encoding, int mark) = EncodingOf(bytes);
        try
        {
            string text = encoding.GetString(bytes, mark, bytes.Length - mark);
            int nul = text.IndexOf('\0', StringComparison.Ordinal);
            if (nul < 0) return text;
            int nulLine = 1 + text.AsSpan(0, nul).Count('\n');
            findings.Refuse(nulLine, nul - text.LastIndexOf('\n', nul), "a NUL character", "text saved as UTF-8", null,
                "The file is not text, or is UTF-16 without its byte-order mark");
            return null;
        }
        catch (DecoderFallbackException error)
        {
            int at = Math.Clamp(mark + Math.Max(0, error.Index), 0, bytes.Length);
            ReadOnlySpan<byte> before = bytes.AsSpan(0, at);
            int line = 1 + before.Count((byte)'\n');
            int column = at - before.LastIndexOf((byte)'\n');
            string found = error.BytesUnknown is { Length: > 0 } unknown ? $"byte {unknown[0]:X2}" : "bytes of another encoding";
            findings.Refuse(line, column, found, "text saved as UTF-8", null, "The file is not UTF-8 text; save it as UTF-8");
            return null;
        }
    }

    private static (Encoding Encoding, int Mark) EncodingOf(byte[] bytes) => bytes switch
    {
        [0xFF, 0xFE, 0, 0, ..] => (new UTF32Encoding(false, true, true), 4),
        [0, 0, 0xFE, 0xFF, ..] => (new UTF32Encoding(true, true, true), 4),
        [0xFF, 0xFE, ..] => (new UnicodeEncoding(false, true, true), 2),
        [0xFE, 0xFF, ..] => (new UnicodeEncoding(true, true, true), 2),
        [0xEF, 0xBB, 0xBF, ..] => (new UTF8Encoding(true, true), 3),
        _ => (new UTF8Encoding(false, true), 0),
    };
}
