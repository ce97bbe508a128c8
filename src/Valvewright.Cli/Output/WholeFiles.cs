namespace Valvewright.Cli.Output;

/// <summary>Files that are put in place together, each whole: written aside, flushed, renamed.</summary>
internal sealed class WholeFiles(string folder)
{
    private readonly List<(string Name, byte[] Content)> files = [];

    /// <summary>Adds a file.</summary>
    public WholeFiles Add(string name, byte[] content)
    {
        files.Add((name, content));
        return this;
    }

    /// <summary>Adds a file of text.</summary>
    public WholeFiles Add(string name, string text) => Add(name, System.Text.Encoding.UTF8.GetBytes(text));

    /// <summary>The paths of the files.</summary>
    public IEnumerable<string> Paths => files.Select(f => Path.Combine(folder, f.Name));

    /// <summary>Writes them all; when one can't be written, none is put in place.</summary>
    /// <exception cref="CannotWriteException">One can't be written.</exception>
    public void Write()
    {
        List<(string Aside, string Place)> written = [];
        try
        {
            Directory.CreateDirectory(folder);
            foreach ((string name, byte[] content) in files)
            {
                string place = Path.Combine(folder, name);
                string aside = $"{place}.{Environment.ProcessId}.part";
                written.Add((aside, place));
                using FileStream stream = new(aside, FileMode.Create, FileAccess.Write, FileShare.None);
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }

            foreach ((string aside, string place) in written)
            {
                File.Move(aside, place, overwrite: true);
            }
        }
        catch (Exception reason) when (reason is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            foreach ((string aside, _) in written)
            {
                TryDelete(aside);
            }

            throw new CannotWriteException($"{folder}: {reason.Message}", reason);
        }
    }

    private static void TryDelete(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (Exception reason) when (reason is IOException or UnauthorizedAccessException)
        {
            // What can't be written often can't be deleted either; the first failure is the one to tell.
        }
    }
}
