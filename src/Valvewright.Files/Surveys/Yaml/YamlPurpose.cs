namespace Valvewright.Files.Surveys.Yaml;

/// <summary>What a YAML file is for, in the words of its problems.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Expected">What should stand in an empty one.</param>
/// <param name="Keys">The keys that it begins with.</param>
internal sealed record YamlPurpose(Sentence Name, Sentence Expected, Sentence Keys)
{
    internal static readonly YamlPurpose Survey =
        new("site file", "a survey that begins with 'site:'", "keys such as 'site:' and 'controllers:'");
}
