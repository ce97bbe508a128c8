using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>What came of reading a survey.</summary>
/// <param name="Site">The site, null where a problem stood in the way.</param>
/// <param name="Problems">Everything that must be put right, in the order of the file.</param>
/// <param name="Warnings">What can be used but is questioned, in the order of the file.</param>
public sealed record SurveyReading(Site? Site, ListOf<Problem> Problems, ListOf<Problem> Warnings)
{
    /// <summary>Whether there is a site to work with.</summary>
    public bool IsRead => Site is not null;
}

/// <summary>Reads site files (docs/survey-file.md).</summary>
public static class SurveyFiles
{
    /// <summary>The name of a site file where a folder is named in its place.</summary>
    public const string UsualName = "site.yaml";

    /// <summary>Reads a site file, or the <c>site.yaml</c> of a folder; never throws for anything a file can hold or a path can
    /// be.</summary>
    /// <param name="path">The file, or the folder that holds it.</param>
    public static SurveyReading Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string file = Directory.Exists(path) && File.Exists(Path.Combine(path, UsualName)) ? Path.Combine(path, UsualName) : path;
        Findings findings = new(file);
        string? text = SurveyText.Load(file, findings);
        return text is null ? findings.Reading(null) : Parse(text, Path.GetDirectoryName(file) ?? "", findings);
    }

    /// <summary>Reads the text of a site file.</summary>
    /// <param name="text">The YAML.</param>
    /// <param name="file">The name to give in problems; its folder is where relative paths begin.</param>
    public static SurveyReading Parse(string text, string file)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(file);
        return Parse(text, Path.GetDirectoryName(file) ?? "", new Findings(file));
    }

    /// <summary>
    /// Reads the text of a survey that has no folder: one that was sent, or is kept in a store. No file is looked for; the weather file
    /// stays named as it is written, for the caller to know what is meant.
    /// </summary>
    /// <param name="text">The YAML.</param>
    /// <param name="name">The name to give in problems.</param>
    public static SurveyReading ParseApart(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(name);
        return Parse(text, null, new Findings(name));
    }

    private static SurveyReading Parse(string text, string? folder, Findings findings)
    {
        MapNode? root = YamlTree.Read(text, findings);
        if (root is null) return findings.Reading(null);
        Site site = SiteReader.Read(root, findings, folder);
        return findings.Reading(site);
    }
}
