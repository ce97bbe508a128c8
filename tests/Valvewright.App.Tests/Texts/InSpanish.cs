using Valvewright.App.Person;
using Valvewright.App.Tests.Outbox;
using Valvewright.App.Texts;
using Valvewright.Files.Texts;

namespace Valvewright.App.Tests.Texts;

/// <summary>The page's words of somebody who reads Spanish.</summary>
internal static class InSpanish
{
    public static async Task<PageWords> Words()
    {
        Preferences preferences = new(new Device(new FakeDevice().Window()));
        await preferences.Speak(Language.Spanish);
        return new PageWords(preferences);
    }
}
