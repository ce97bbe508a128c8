namespace Valvewright.Files.Problems;

/// <summary>A file that a person named. A device or a pipe has no length beforehand and may never end: no more than a limit is read of
/// it.</summary>
public static class GivenFile
{
    /// <summary>All bytes of it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="most">The most bytes that it may have.</param>
    /// <exception cref="IOException">It has more, or cannot be read.</exception>
    public static byte[] ReadBytes(string path, long most)
    {
        if (new FileInfo(path) is { Exists: true, Length: > 0 } whole)
        {
            return whole.Length <= most ? File.ReadAllBytes(path) : throw new IOException($"It has more than {most} bytes.");
        }

        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        return ReadBytes(stream, most);
    }

    /// <summary>Its text, UTF-8 or with a byte-order mark.</summary>
    /// <param name="path">The file.</param>
    /// <param name="most">The most bytes that it may have.</param>
    /// <exception cref="IOException">It has more, or cannot be read.</exception>
    public static string ReadText(string path, long most)
    {
        using StreamReader reader = new(new MemoryStream(ReadBytes(path, most)), System.Text.Encoding.UTF8);
        return reader.ReadToEnd();
    }

    /// <summary>All bytes of a stream.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="most">The most bytes that it may have.</param>
    /// <exception cref="IOException">It has more.</exception>
    public static byte[] ReadBytes(Stream stream, long most)
    {
        ArgumentNullException.ThrowIfNull(stream);
        using MemoryStream read = new();
        byte[] part = new byte[64 * 1024];
        for (int count; (count = stream.Read(part)) > 0;)
        {
            read.Write(part, 0, count);
            if (read.Length > most)
            {
                throw new IOException($"It has more than {most} bytes.");
            }
        }

        return read.ToArray();
    }
}
