using System.Text;
using NodaTime;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

public sealed class BadFiles : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("weather");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public void A_folder_in_place_of_a_file() =>
        Assert.Contains("a folder", WeatherFiles.Read(folder.FullName).OnlyProblem().Message, StringComparison.Ordinal);

    [Fact]
    public void A_missing_file_names_its_nearest_neighbour()
    {
        Write("station.csv", "x"u8);
        Assert.Equal("station.csv", WeatherFiles.Read(Path.Combine(folder.FullName, "staton.csv")).OnlyProblem().Nearest);
    }

    [Fact]
    public void An_empty_file() =>
        Assert.Equal("the file is empty", WeatherFiles.Read(Write("a.csv", [])).OnlyProblem().Message);

    [Fact]
    public void A_file_of_blanks() =>
        Assert.Equal("the file is empty", WeatherFiles.Read(Write("a.csv", "  \n\n"u8)).OnlyProblem().Message);

    [Fact]
    public void A_file_of_100_MB_is_refused_unread()
    {
        string path = Path.Combine(folder.FullName, "big.csv");
        using (FileStream file = File.Create(path))
        {
            file.SetLength(100_000_000);
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        Problem problem = WeatherFiles.Read(path).OnlyProblem();
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 100_000);
        Assert.Equal(("100 MB", "at most 67 MB"), (problem.Found, problem.Expected.Text));
    }

    [Fact]
    public void Other_encodings_are_located()
    {
        const string Text = "date,tmax (°C),tmin (°C)\n2021-06-01,20,10\n";
        Problem latin = WeatherFiles.Read(Write("latin.csv", Encoding.Latin1.GetBytes(Text))).OnlyProblem();
        Assert.Equal((1, 12, "byte 0xB0", "UTF-8"), (latin.Line, latin.Column, latin.Found, latin.Nearest));
        Problem wide = WeatherFiles.Read(Write("wide.csv", [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(Text)])).OnlyProblem();
        Assert.Contains("UTF-16", wide.Found, StringComparison.Ordinal);
        Problem wideBare = WeatherFiles.Read(Write("wide2.csv", Encoding.BigEndianUnicode.GetBytes(Text))).OnlyProblem();
        Assert.Contains("UTF-16", wideBare.Found, StringComparison.Ordinal);
        Assert.True(WeatherFiles.Read(Write("marked.csv", [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(Text)])).Ok);
    }

    [Fact]
    public void A_zero_byte_in_the_text_is_located() =>
        Assert.Equal((2, 12), WeatherFiles.Read(Write("a.csv", "date,tmax_c,tmin_c\n2021-06-01,\u00002,1\n"u8)).OnlyProblem() is var p
            ? (p.Line, p.Column) : default);

    /// <summary>24 MB of daily rows of many stations (600 000 rows): well below a second on a free core, 5 s allowed on a busy
    /// one.</summary>
    [Fact]
    public void Twenty_four_megabytes_are_read_without_a_copy_of_every_row()
    {
        StringBuilder text = new("STATION,NAME,DATE,PRCP,TMAX,TMIN\n");
        for (int station = 0; text.Length < 24_000_000; station++)
        {
            for (int day = 0; day < 7300; day++)
            {
                text.Append($"USC{station:00000000},PLACE {station},")
                    .Append(new LocalDate(2000, 1, 1).PlusDays(day).ToString("uuuu-MM-dd", null)).Append(",0.10,95,60\n");
            }
        }

        string path = Write("many.csv", Encoding.UTF8.GetBytes(text.ToString()));
        long before = GC.GetAllocatedBytesForCurrentThread();
        WeatherReading reading = WeatherFiles.Read(path, new WeatherReadOptions { Station = "USC00000003" });
        Assert.Equal(7300, reading.Good().Record!.Days.Count);

        // The bytes, the text and its 7300 days; a copy of each of half a million rows would be another 50 MB and more.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 100_000_000);
    }

    private string Write(string name, ReadOnlySpan<byte> bytes)
    {
        string path = Path.Combine(folder.FullName, name);
        File.WriteAllBytes(path, bytes);
        return path;
    }
}
