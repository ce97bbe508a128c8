using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;

namespace Valvewright.Cli.Inputs;

/// <summary>Reads the certificate that a server speaks TLS with.</summary>
internal static class Certificates
{
    /// <summary>The variable of the environment that holds the password of a certificate's file.</summary>
    public const string PasswordVariable = "VALVEWRIGHT_CERTIFICATE_PASSWORD";

    /// <summary>A certificate with its key: a PFX file, or a PEM file with the set it or in a file of its own.</summary>
    /// <exception cref="ProblemsException">It can't be used.</exception>
    public static X509Certificate2? Read(string? file, string? key, string option = "--certificate")
    {
        if (file is null)
        {
            return key is null ? null : throw Wrong("--key", key, "--certificate next to it", "a key without its certificate");
        }

        string? password = Environment.GetEnvironmentVariable(PasswordVariable);
        try
        {
            bool isPem = File.ReadAllText(file).Contains("-----BEGIN", StringComparison.Ordinal);
            if (!isPem)
            {
                return Checked(X509CertificateLoader.LoadPkcs12FromFile(file, password), file, option);
            }

            using X509Certificate2 read = password is null ? X509Certificate2.CreateFromPemFile(file, key)
                : X509Certificate2.CreateFromEncryptedPemFile(file, password, key);
            // Kept as a whole, because some systems do not take a key that lies in memory only.
            return Checked(X509CertificateLoader.LoadPkcs12(read.Export(X509ContentType.Pkcs12), null), file, option);
        }
        catch (Exception reason) when (reason is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw Wrong(option, file,
                $"a PFX file, or a PEM file that holds its key or goes with --key; a password in {PasswordVariable}", reason.Message);
        }
    }

    private static X509Certificate2 Checked(X509Certificate2 certificate, string file, string option) =>
        certificate.HasPrivateKey ? certificate
            : throw Wrong(option, file, "a certificate with its private key", "it holds no key");

    private static ProblemsException Wrong(string where, string found, string expected, string why) =>
        new(new Problem(where, 0, 0, found, expected, null, why));
}
