using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Commands.Et;
using Valvewright.Cli.Output;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;
using Valvewright.Work;

namespace Valvewright.Cli.Commands;

/// <summary>Prints daily reference evapotranspiration of a weather file, or of a place fetched from a weather service.</summary>
internal static class EtCommand
{
    public static Job Make()
    {
        EtArguments arguments = new();
        Job job = new(
            "et", "Print daily reference evapotranspiration (ETo) and how each day was computed.",
            "valvewright et reference/weather/azmet_06_maricopa.csv --place 33,-112,361",
            "valvewright et --fetch nasa-power --place 38.3,48.85,720");
        arguments.AddTo(job);
        return job.Does((parse, sheet, cancel) =>
        {
            EtChoices choices = arguments.Read(parse);
            WeatherReading reading = Read(choices, sheet, cancel);
            if (!reading.Ok)
            {
                throw new ProblemsException(reading.Problems);
            }

            if (choices.Preview)
            {
                EtPreview.Print(reading, sheet);
                EtPage.Notes(reading.Notes, sheet);
                sheet.Answer(EtPreview.Of(reading));
                return ExitCode.Done;
            }

            sheet.Progress.Step("Computing ETo");
            EtAnswer answer = EtAnswer.Of(Built(reading.Record, choices), reading, choices);
            sheet.Answer(answer);
            if (choices.Reading.Columns is not null)
            {
                EtPreview.Print(reading, sheet);
            }

            EtPage.Print(answer, choices, sheet);
            return ExitCode.Done;
        });
    }

    private static WeatherReading Read(EtChoices choices, Sheet sheet, CancellationToken cancel)
    {
        if (choices.Service is not { } service)
        {
            sheet.Progress.Step("Reading the weather");
            return WeatherFiles.Read(choices.File!, choices.Reading);
        }

        sheet.Progress.Step($"Asking {service.Word()}");
        using WeatherFetcher fetcher = new(FetchSettings.FromEnvironment(), SystemClock.Instance);
        FetchRequest request = new(service, choices.Reading.Place!, choices.From!.Value, choices.To!.Value);
        FetchResult result = fetcher.FetchAsync(request, choices.Again, cancel).GetAwaiter().GetResult();
        return result.Unreachable ? throw new RefusalException(
            new Refusal.WeatherUnusable(result.Reading.Problems) { IsOfService = true }) : result.Reading;
    }

    private static BuiltClimate Built(WeatherRecord record, EtChoices choices)
    {
        string name = choices.File ?? choices.Service!.Value.Word();
        if (double.IsNaN(record.Place.LatitudeDeg) || double.IsNaN(record.Place.ElevationM))
        {
            throw new ProblemsException(new Problem(
                name, 0, 0, "", "--place latitude,longitude,elevation", null,
                    "ETo needs the station's latitude and elevation, and the file does not say them"));
        }

        try
        {
            return ClimateBuilder.Build(record, choices.Eto);
        }
        catch (ArgumentException e)
        {
            throw new ProblemsException(
                new Problem(name, 0, 0, "", "days with both temperatures, or published ETo", null, e.Message.TrimEnd('.')));
        }
    }
}
