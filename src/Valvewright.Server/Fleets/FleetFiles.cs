using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;

namespace Valvewright.Server.Fleets;

/// <summary>A table as CSV and as a workbook.</summary>
internal static partial class FleetFiles
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/package/2006/relationships";
    private const string DocumentRelations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string WorkbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml";

    /// <summary>Day 0 of a workbook's dates (ECMA-376 part 1, 18.17.4.1, the 1900 date base, right from March 1900 on).</summary>
    private static readonly LocalDate DayNought = new(1899, 12, 30);

    /// <summary>
    /// RFC 4180. Text that a spreadsheet would take for a formula gets an apostrophe before it: a site's name must not become a command
    /// on the desk of anyone who opens the table.
    /// </summary>
    public static string Csv(IReadOnlyList<string> headings, IEnumerable<object?[]> rows)
    {
        StringBuilder csv = new();
        csv.AppendJoin(',', headings).Append("\r\n");
        foreach (object?[] row in rows)
        {
            csv.AppendJoin(',', row.Select(c => Field(c))).Append("\r\n");
        }

        return csv.ToString();
    }

    /// <summary>A workbook of one sheet (ECMA-376): text as text, numbers as numbers, dates as dates; no formulas.</summary>
    public static byte[] Xlsx(string sheet, IReadOnlyList<string> headings, IEnumerable<object?[]> rows)
    {
        using MemoryStream stream = new();
        using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Part(zip, "[Content_Types].xml", $"""
                <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="{WorkbookType}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="{WorkbookType}.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="{WorkbookType}.styles+xml"/></Types>
                """);
            Part(zip, "_rels/.rels",
                $"""<Relationships xmlns="{Relations}"><Relationship Id="r1" Type="{DocumentRelations}/officeDocument" Target="xl/workbook.xml"/></Relationships>""");
            Part(zip, "xl/workbook.xml",
                $"""<workbook xmlns="{Main}" xmlns:r="{DocumentRelations}"><sheets><sheet name="{sheet}" sheetId="1" r:id="r1"/></sheets></workbook>""");
            Part(zip, "xl/_rels/workbook.xml.rels",
                $"""<Relationships xmlns="{Relations}"><Relationship Id="r1" Type="{DocumentRelations}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Type="{DocumentRelations}/styles" Target="styles.xml"/></Relationships>""");
            Part(zip, "xl/styles.xml", $"""
                <styleSheet xmlns="{Main}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd"/></numFmts><fonts count="2"><font><sz val="11"/></font><font><b/><sz val="11"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf/><xf numFmtId="164" applyNumberFormat="1"/><xf fontId="1" applyFont="1"/></cellXfs></styleSheet>
                """);
            using Stream entry = zip.CreateEntry("xl/worksheets/sheet1.xml").Open();
            using XmlWriter xml = XmlWriter.Create(entry, new XmlWriterSettings { Encoding = new UTF8Encoding(false) });
            Sheet(xml, headings, rows);
        }

        return stream.ToArray();
    }

    private static void Sheet(XmlWriter xml, IReadOnlyList<string> headings, IEnumerable<object?[]> rows)
    {
        xml.WriteStartElement("worksheet", Main);
        xml.WriteStartElement("sheetViews", Main);
        xml.WriteRaw("""<sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" state="frozen"/></sheetView>""");
        xml.WriteEndElement();
        xml.WriteStartElement("sheetData", Main);
        int number = 0;
        foreach (object?[] row in rows.Prepend([.. headings]))
        {
            number++;
            xml.WriteStartElement("row", Main);
            for (int column = 0; column < row.Length; column++)
            {
                Cell(xml, $"{Letters(column)}{number}", row[column], number == 1);
            }

            xml.WriteEndElement();
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Cell(XmlWriter xml, string reference, object? value, bool heading)
    {
        if (value is null or double.NaN)
        {
            return;
        }

        xml.WriteStartElement("c", Main);
        xml.WriteAttributeString("r", reference);
        if (value is double or LocalDate)
        {
            if (value is LocalDate)
            {
                xml.WriteAttributeString("s", "1");
            }

            double number = value is LocalDate date ? Period.DaysBetween(DayNought, date) : (double)value;
            xml.WriteElementString("v", Main, number.ToString("R", CultureInfo.InvariantCulture));
        }
        else
        {
            if (heading)
            {
                xml.WriteAttributeString("s", "2");
            }

            xml.WriteAttributeString("t", "inlineStr");
            xml.WriteStartElement("is", Main);
            xml.WriteElementString(
                "t", Main, string.Concat(EscapeMark().Replace(value.ToString()!, "_x005F_").EnumerateRunes()
                    .Where(r => r.Value > 0xFFFF || XmlConvert.IsXmlChar((char)r.Value)).Select(r => r.ToString())));
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    /// <summary>Whether text would be taken for a formula, or begins as if it had been kept from being one.</summary>
    public static bool IsGuarded(ReadOnlySpan<char> text)
    {
        ReadOnlySpan<char> bare = text.TrimStart('\'');
        return bare is ['=' or '+' or '-' or '@' or '\t' or '\r', ..];
    }

    private static string Letters(int column) =>
        column < 26 ? ((char)('A' + column)).ToString() : $"{Letters((column / 26) - 1)}{(char)('A' + (column % 26))}";

    private static string Field(object? cell)
    {
        string text = FleetTable.Text(cell);
        if (cell is string && IsGuarded(text))
        {
            text = "'" + text;
        }

        return text.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
    }

    /// <summary>An underscore that readers of workbooks would take for the beginning of an escaped character (ECMA-376 part 1,
    /// 22.9.2.19).</summary>
    [GeneratedRegex("_(?=x[0-9A-Fa-f]{4}_)")]
    private static partial Regex EscapeMark();

    private static void Part(ZipArchive zip, string name, string xml)
    {
        using StreamWriter writer = new(zip.CreateEntry(name).Open(), new UTF8Encoding(false));
        writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n" + xml.Trim());
    }
}
