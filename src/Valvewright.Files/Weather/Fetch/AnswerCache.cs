namespace Valvewright.Files.Weather.Fetch;

/// <summary>Answers of weather services, kept as files exactly as they came. When one was fetched is the file's time of writing.</summary>
internal sealed class AnswerCache(string folder)
{
    /// <summary>The kept answer and when it was fetched; null where there is none or it cannot be read.</summary>
    public (byte[] Bytes, Instant Fetched)? Find(string name)
    {
        string path = Path.Combine(folder, name);
        try
        {
            return File.Exists(path) ? (File.ReadAllBytes(path), Instant.FromDateTimeUtc(File.GetLastWriteTimeUtc(path))) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Keeps an answer: written aside, flushed to disk, then renamed, so that it is there whole or not at all.</summary>
    /// <returns>Null, or why it could not be kept.</returns>
    public string? Keep(string name, byte[] bytes, Instant fetched)
    {
        string path = Path.Combine(folder, name);
        string aside = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            Directory.CreateDirectory(folder);
            using (FileStream file = new(aside, FileMode.CreateNew))
            {
                file.Write(bytes);
                file.Flush(flushToDisk: true);
            }

            File.SetLastWriteTimeUtc(aside, fetched.ToDateTimeUtc());
            File.Move(aside, path, overwrite: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Discard(aside);
            return e.Message;
        }
    }

    private static void Discard(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What could not be written may not be removable either; the cache never looks at it.
        }
    }
}
