namespace Valvewright.Files.Cards.Pdf;

/// <summary>A card laid out: the strips of each page.</summary>
internal sealed class CardPages(CardContent card, CardPhrases say, Sheet measure, double pageWidth, double pageHeight)
{
    /// <summary>White border of the page, points: 9 mm, so that a laminate's seal stays clear of the print.</summary>
    public const double Margin = 9 / 25.4 * 72;

    /// <summary>More programs than these stand in a second table, below the first.</summary>
    private const int ProgramsAcross = 4;

    private int Tables => Math.Max(1, (card.Programs.Count + ProgramsAcross - 1) / ProgramsAcross);

    /// <summary>Rows grow at most by this factor to fill a page.</summary>
    private const double LargestStretch = 1.5;

    private readonly QrPicture code = card.Code();
    private readonly double width = pageWidth - 2 * Margin;
    private readonly double room = pageHeight - 2 * Margin;

    /// <summary>The strips of each page, with the height each is given: one page, in the largest type that fits it; more where even the
    /// least type does not.</summary>
    public IReadOnlyList<IReadOnlyList<(Band Band, double Height)>> Lay()
    {
        foreach ((bool isFull, double scale) in Sizes.Ladder.Select(s => (false, s)).Append((true, Sizes.Ladder.Last())))
        {
            Sizes sizes = new(scale);
            List<Band> bands = Bands(sizes, card.NextDays.Count, 1, 1, isFull);
            int fewest = Math.Min(card.NextDays.Count, sizes.Dense ? 2 : 5);
            double over = bands.Sum(b => b.Height) - room;
            int removed = (int)Math.Ceiling(Math.Max(0, over) / (sizes.TotalRow * Tables));
            if (removed <= card.NextDays.Count - fewest && bands.All(b => b.Fits))
            {
                return [Filled(removed == 0 ? bands : Bands(sizes, card.NextDays.Count - removed, 1, 1, isFull))];
            }
        }

        return Flowed(new Sizes(Sizes.Ladder.Last()));
    }

    private List<Band> Bands(Sizes sizes, int dates, int page, int pages, bool isFull = false)
    {
        StepBands steps = new(card, say, code, measure, sizes, Margin, width, isFull);
        GridBands grid = new(measure, sizes, Margin, width);
        int step = 1;
        List<Band> bands = [
            steps.Head(page, pages), .. new[] { steps.Fails(), steps.New(), steps.Before() }.OfType<Band>(),
            steps.Step(step++, say["clock"], say.Clock()), .. new[] { steps.Aside(say.CautionsAtClock()) }.OfType<Band>()];
        foreach (ProgramStep[] programs in card.Programs.Chunk(ProgramsAcross))
        {
            (int, string)[] heads = [.. programs.Select(p => (step++, say.Fill("program", ("letter", p.Program.Letter))))];
            bands.AddRange(grid.Of(
                [.. Grid.Settings(card, programs, say), Grid.Totals(programs, say), Grid.Next(card, programs, say, dates)], heads));
            bands.Add(new Band(sizes.Gap, (sheet, y, _) => sheet.Rule(Margin, y, width, 2)));
        }

        foreach (string line in new[] { say.Unused(), say.EmptyStations() }.OfType<string>())
        {
            bands.Add(steps.Step(step++, line));
        }

        if (say.HasPercent || card.Visits.Count > 0)
        {
            bands.Add(steps.Step(step++, $"{say["percent"]}: {say.Percent()}"));
        }

        if (steps.Visits() is { } visits)
        {
            bands.Add(visits);
        }

        if (steps.Changes() is { } changes)
        {
            bands.Add(changes);
        }

        if (card.Visits.Count > 0 && steps.Aside(say.CautionsAtVisits()) is { } winter)
        {
            bands.Add(winter);
        }

        bands.Add(steps.Foot(step));
        return bands;
    }

    private List<(Band, double)> Filled(List<Band> bands)
    {
        double spare = room - bands.Sum(b => b.Height);
        double stretching = bands.Where(b => b.Stretches).Sum(b => b.Height);
        double factor = stretching == 0 ? 1 : Math.Min(LargestStretch, 1 + spare / stretching);
        return [.. bands.Select(b => (b, b.Stretches ? b.Height * factor : b.Height))];
    }

    private List<List<(Band, double)>> Flowed(Sizes sizes)
    {
        // The number of pages is part of their heads, whose height it does not change.
        int pages = Flow(Bands(sizes, card.NextDays.Count, 1, 1), sizes, 1).Count;
        return Flow(Bands(sizes, card.NextDays.Count, 1, pages), sizes, pages);
    }

    private List<List<(Band, double)>> Flow(List<Band> bands, Sizes sizes, int pages)
    {
        StepBands steps = new(card, say, code, measure, sizes, Margin, width, isFull: false);
        List<List<(Band Band, double Height)>> laid = [[]];
        foreach (Band band in bands)
        {
            if (laid[^1].Sum(b => b.Height) + band.Height > room && laid[^1].Count > 0)
            {
                Band head = steps.Head(laid.Count + 1, pages);
                laid.Add(band.Heading is { } heading ? [(head, head.Height), (heading, heading.Height)] : [(head, head.Height)]);
            }

            laid[^1].Add((band, band.Height));
        }

        return laid;
    }
}
