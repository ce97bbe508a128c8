using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;

namespace Valvewright.Files.Tables;

/// <summary>A sheet of a workbook.</summary>
/// <param name="Name">Its name; at most 31 characters.</param>
/// <param name="Headings">The first row.</param>
/// <param name="Rows">The rows under it: text, numbers (double), dates (LocalDate), or null.</param>
public sealed record RowsOfSheet(string Name, IReadOnlyList<string> Headings, IEnumerable<object?[]> Rows);

/// <summary>Tables as a workbook (ECMA-376): text as text, numbers as numbers, dates as dates; no formulas.</summary>
public static partial class Workbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/package/2006/relationships";
    private const string DocumentRelations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string WorkbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml";

    /// <summary>Day 0 of a workbook's dates (ECMA-376 part 1, 18.17.4.1, the 1900 date base, right from March 1900 on).</summary>
    private static readonly LocalDate DayNought = new(1899, 12, 30);

    /// <summary>The earliest time that an archive can hold: the same tables give the same bytes.</summary>
    private static readonly DateTimeOffset Steady = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>A workbook with these sheets, in their order.</summary>
    public static byte[] Of(params IReadOnlyList<RowsOfSheet> sheets)
    {
        ArgumentNullException.ThrowIfNull(sheets);
        using MemoryStream stream = new();
        using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            string types = string.Concat(sheets.Select((_, i) =>
                $"""<Override PartName="/xl/worksheets/sheet{i + 1}.xml" ContentType="{WorkbookType}.worksheet+xml"/>"""));
            string named = string.Concat(sheets.Select((s, i) =>
                $"""<sheet name="{System.Security.SecurityElement.Escape(s.Name)}" sheetId="{i + 1}" r:id="r{i + 1}"/>"""));
            string related = string.Concat(sheets.Select((_, i) =>
                $"""<Relationship Id="r{i + 1}" Type="{DocumentRelations}/worksheet" Target="worksheets/sheet{i + 1}.xml"/>"""));
            Part(zip, "[Content_Types].xml", $"""
                <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="{WorkbookType}.sheet.main+xml"/>{types}<Override PartName="/xl/styles.xml" ContentType="{WorkbookType}.styles+xml"/></Types>
                """);
            Part(zip, "_rels/.rels",
                $"""<Relationships xmlns="{Relations}"><Relationship Id="r1" Type="{DocumentRelations}/officeDocument" Target="xl/workbook.xml"/></Relationships>""");
            Part(zip, "xl/workbook.xml",
                $"""<workbook xmlns="{Main}" xmlns:r="{DocumentRelations}"><sheets>{named}</sheets></workbook>""");
            Part(zip, "xl/_rels/workbook.xml.rels",
                $"""<Relationships xmlns="{Relations}">{related}<Relationship Id="r{sheets.Count + 1}" Type="{DocumentRelations}/styles" Target="styles.xml"/></Relationships>""");
            Part(zip, "xl/styles.xml", $"""
                <styleSheet xmlns="{Main}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd"/></numFmts><fonts count="2"><font><sz val="11"/></font><font><b/><sz val="11"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf/><xf numFmtId="164" applyNumberFormat="1"/><xf fontId="1" applyFont="1"/></cellXfs></styleSheet>
                """);
            for (int i = 0; i < sheets.Count; i++)
            {
                using Stream entry = Entry(zip, $"xl/worksheets/sheet{i + 1}.xml");
                using XmlWriter xml = XmlWriter.Create(entry, new XmlWriterSettings { Encoding = new UTF8Encoding(false) });
                Write(xml, sheets[i].Headings, sheets[i].Rows);
            }
        }

        return stream.ToArray();
    }

    private static void Write(XmlWriter xml, IReadOnlyList<string> headings, IEnumerable<object?[]> rows)
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

    private static string Letters(int column) =>
        column < 26 ? ((char)('A' + column)).ToString() : $"{Letters((column / 26) - 1)}{(char)('A' + (column % 26))}";

    /// <summary>An underscore that readers of workbooks would take for the beginning of an escaped character (ECMA-376 part 1,
    /// 22.9.2.19).</summary>
    [GeneratedRegex("_(?=x[0-9A-Fa-f]{4}_)")]
    private static partial Regex EscapeMark();

    private static Stream Entry(ZipArchive zip, string name)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name);
        entry.LastWriteTime = Steady;
        return entry.Open();
    }

    private static void Part(ZipArchive zip, string name, string xml)
    {
        using StreamWriter writer = new(Entry(zip, name), new UTF8Encoding(false));
        writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n" + xml.Trim());
    }
}
