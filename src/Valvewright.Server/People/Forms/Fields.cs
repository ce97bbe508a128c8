using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.DependencyInjection;
using Valvewright.Files.Problems;

namespace Valvewright.Server.People.Forms;

/// <summary>What a form sent.</summary>
internal sealed class Fields
{
    /// <summary>The most signs of a field.</summary>
    public const int Longest = 256;

    private const int LongestName = 100;
    private readonly IFormCollection form;

    private Fields(IFormCollection form) => this.form = form;

    /// <summary>Reads them; null where the form is none that this server gave to this browser.</summary>
    public static async Task<Fields?> Read(HttpContext http)
    {
        if (!http.Request.HasFormContentType)
        {
            return null;
        }

        try
        {
            await http.RequestServices.GetRequiredService<IAntiforgery>().ValidateRequestAsync(http);
            return new Fields(await http.Request.ReadFormAsync(http.RequestAborted));
        }
        catch (Exception reason) when (reason is AntiforgeryValidationException or InvalidDataException)
        {
            return null;
        }
    }

    /// <summary>A field as it was sent; empty where it is not there or too long.</summary>
    public string this[string name] => form[name].ToString() is { Length: <= Longest } text ? text : "";

    /// <summary>A name on one line; null where it is none.</summary>
    public string? Name(string name) => NameOf(this[name]);

    /// <summary>A name on one line; null where a text is none.</summary>
    public static string? NameOf(string text) =>
        text.Trim() is { Length: > 0 and <= LongestName } plain && !plain.Any(c => char.IsControl(c) || char.IsSurrogate(c)
            || Misleading.Is(c)) ? plain : null;

    /// <summary>A role; null where it is none.</summary>
    public MemberRole? Role() => Enum.GetValues<MemberRole>().Cast<MemberRole?>().FirstOrDefault(r => $"{r}" == this["role"]);
}
