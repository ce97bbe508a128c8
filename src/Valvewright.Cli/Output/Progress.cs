using System.Globalization;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>Says on standard error what is being done, once it has taken a second.</summary>
/// <param name="error">Where to say it.</param>
/// <param name="wanted">Whether anybody wants to know.</param>
/// <param name="live">Whether the line can be written over (a terminal).</param>
/// <param name="time">What time it is; the system's when not given.</param>
/// <param name="language">The language that it is said in.</param>
internal sealed class Progress(
    TextWriter error, bool wanted, bool live, TimeProvider? time = null, Language language = Language.English) : IDisposable
{
    private readonly Lock gate = new();
    private readonly TimeProvider clock = time ?? TimeProvider.System;
    private ITimer? timer;
    private long begun;
    private string? step;
    private int written;

    /// <summary>What is being done from now on.</summary>
    public void Step(Sentence what)
    {
        if (!wanted)
        {
            return;
        }

        lock (gate)
        {
            End();
            step = Sentences.Say(what, language);
            begun = clock.GetTimestamp();
            timer ??= clock.CreateTimer(_ => Tick(), null, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(1));
        }
    }

    /// <summary>Done with everything: the line is cleared.</summary>
    public void Dispose()
    {
        lock (gate)
        {
            End();
            timer?.Dispose();
            timer = null;
        }
    }

    private void Tick()
    {
        lock (gate)
        {
            if (step is null || clock.GetElapsedTime(begun).TotalSeconds < 0.95 || (!live && written > 0))
            {
                return;
            }

            string line = live
                ? string.Create(CultureInfo.InvariantCulture, $"{step} ... {clock.GetElapsedTime(begun).TotalSeconds:0} s")
                : $"{step} ...";
            error.Write(live ? "\r" + line.PadRight(written) : line + "\n");
            error.Flush();
            written = line.Length;
        }
    }

    private void End()
    {
        if (written > 0 && live)
        {
            error.Write("\r" + new string(' ', written) + "\r");
        }

        written = 0;
        step = null;
    }
}
