namespace Valvewright.Store.Files;

/// <summary>
/// Held while a program writes to a store: of two servers on one file the second is refused, and no one replaces a file that is in use.
/// The system lets go of it when the program ends, however it ends.
/// </summary>
internal sealed class StoreLock : IDisposable
{
    private readonly FileStream stream;

    private StoreLock(FileStream stream) => this.stream = stream;

    /// <summary>Takes the lock of a store's file.</summary>
    /// <exception cref="StoreException">Another program holds it, or it can't be made.</exception>
    public static StoreLock Take(string file)
    {
        try
        {
            return new StoreLock(new FileStream(file + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (Exception reason) when (reason is IOException or UnauthorizedAccessException)
        {
            throw new StoreException(
                $"{file}: another program has this store open, or its folder cannot be written to ({reason.Message}).", reason);
        }
    }

    public void Dispose() => stream.Dispose();
}
