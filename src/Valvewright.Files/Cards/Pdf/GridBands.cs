namespace Valvewright.Files.Cards.Pdf;

/// <summary>The table of a card as strips.</summary>
internal sealed class GridBands(Sheet measure, Sizes sizes, double left, double width)
{
    private const double ThinRule = 0.7;
    private const double ThickRule = 2;
    private const double ColumnRule = 1.2;

    /// <summary>A column is not made wider than this many times the setting's size.</summary>
    private const double WidestColumn = 13;

    /// <summary>The table's heads and rows.</summary>
    /// <param name="groups">Its rows.</param>
    /// <param name="heads">Each column's title, with its step number.</param>
    public List<Band> Of(IReadOnlyList<GridGroup> groups, IReadOnlyList<(int Step, string Title)> heads)
    {
        double column = ColumnWidth(heads.Count);
        Band head = Head(heads, column);
        List<Band> bands = [head];
        foreach (GridGroup group in groups)
        {
            if (group.Heading is not null)
            {
                bands.Add(Heading(group) with { Heading = head });
            }

            for (int i = 0; i < group.Rows.Count; i++)
            {
                bands.Add(Row(group.Rows[i], column, group.Keyed, group.Heading is null && i == 0) with { Heading = head });
            }
        }

        return bands;
    }

    private double ColumnWidth(int columns) => Math.Min(width * 0.76 / columns, Math.Min(sizes.Setting.Size * WidestColumn, width * 0.56));

    private double NameWidth(double column, int columns) => width - column * columns;

    private Band Head(IReadOnlyList<(int Step, string Title)> heads, double column)
    {
        double height = sizes.Mark + 8;
        double names = NameWidth(column, heads.Count);
        double pad = 0.7 * sizes.Pad;
        double titleRoom = column - 2 * sizes.Mark - 4 * pad;
        bool fits = heads.All(h => measure.Width(h.Title, sizes.Setting) <= titleRoom);
        return new Band(height, (sheet, y, given) =>
        {
            double mark = (given - sizes.Mark) / 2;
            for (int i = 0; i < heads.Count; i++)
            {
                double x = left + names + column * i;
                sheet.Black(x + (i == 0 ? 0 : ColumnRule), y, column - (i == 0 ? 0 : ColumnRule), given);
                sheet.Disc(heads[i].Step, sizes.Setting, x + pad, y + mark, sizes.Mark, white: true);
                sheet.Text(heads[i].Title, sizes.Setting, x + sizes.Mark + 2 * pad, y, titleRoom, given, white: true);
                sheet.Box(x + column - pad - sizes.Mark, y + mark, sizes.Mark, sizes.Mark, 1);
            }
        }, Fits: fits);
    }

    private Band Heading(GridGroup group)
    {
        Type type = sizes.Label with { Bold = true };
        double name = measure.Width(group.Heading!, type) + 2 * sizes.Pad;
        string help = group.Help is null ? "" : measure.Cut(group.Help, sizes.Note, width - name);
        return new Band(type.Size * (sizes.Dense ? 1.3 : 1.5), (sheet, y, given) =>
        {
            sheet.Rule(left, y, width, ThickRule);
            sheet.Text(group.Heading!, type, left, y, name, given);
            sheet.Text(help, sizes.Note, left + name, y, width - name, given);
        });
    }

    private Band Row(GridRow row, double column, bool keyed, bool opensGroup)
    {
        double names = NameWidth(column, row.Cells.Count);
        (string Text, Type Type)[][] cells = [.. row.Cells.Select(c => Lines(c, column - 2 * sizes.Pad).ToArray())];
        Type nameType = keyed ? sizes.Label : sizes.Total;
        double number = row.Number is null ? 0 : measure.Width("00", sizes.Setting) + sizes.Pad;
        double nameRoom = names - number - sizes.Pad;
        nameType = measure.Width(row.Name, nameType) <= nameRoom ? nameType : sizes.Note;
        string name = measure.Cut(row.Name, nameType, nameRoom);
        double tallest = cells.Max(c => c.Sum(l => l.Type.Line));
        double height = keyed ? Math.Max(sizes.Row, tallest + sizes.Row - sizes.Setting.Line) : Math.Max(sizes.TotalRow, tallest);
        bool fits = cells.All(c => c.All(l => measure.Width(l.Text, l.Type) <= column - 2 * sizes.Pad && !l.Text.EndsWith('…')));
        return new Band(height, (sheet, y, given) =>
        {
            sheet.Rule(left, y, width, opensGroup ? ThickRule : ThinRule);
            if (row.Number is not null)
            {
                sheet.Text(row.Number, sizes.Setting, left, y, number - sizes.Pad, given, Side.Right);
            }

            sheet.Text(name, nameType, left + number, y, names - number, given);
            for (int i = 0; i < cells.Length; i++)
            {
                Cell(sheet, cells[i], left + names + column * i, y, column, given);
            }
        }, keyed, fits);
    }

    private void Cell(Sheet sheet, (string Text, Type Type)[] lines, double x, double y, double column, double height)
    {
        sheet.Upright(x, y, height, ColumnRule);
        double at = y + (height - lines.Sum(l => l.Type.Line)) / 2;
        foreach ((string text, Type type) in lines)
        {
            sheet.Text(text, type, x + sizes.Pad, at, column - 2 * sizes.Pad, type.Line);
            at += type.Line;
        }
    }

    private IEnumerable<(string Text, Type Type)> Lines(IReadOnlyList<Part> parts, double room) =>
        parts.SelectMany(p => measure.Lines(p.Text, TypeOf(p.Role), room).Select(l => (l, TypeOf(p.Role))));

    private Type TypeOf(Role role) => role switch
    {
        Role.Setting => sizes.Setting,
        Role.Empty => sizes.Empty,
        Role.Total => sizes.Total,
        _ => sizes.Note,
    };
}
