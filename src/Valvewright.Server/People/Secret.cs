using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Valvewright.Server.People;

/// <summary>Random texts that let their holder in. They have 256 bits, so a plain digest of them can't be turned back.</summary>
internal static class Secret
{
    private const int Bytes = 32;

    /// <summary>A new one.</summary>
    public static string Make() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));

    /// <summary>What is kept of one.</summary>
    public static string Digest(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
