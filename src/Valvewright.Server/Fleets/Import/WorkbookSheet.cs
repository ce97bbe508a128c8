using System.IO.Compression;
using System.Xml;
using MiniExcelLibs;
using MiniExcelLibs.OpenXml;
using Valvewright.Files.Texts;

namespace Valvewright.Server.Fleets.Import;

/// <summary>Reads the first sheet of a workbook (ECMA-376).</summary>
internal static class WorkbookSheet
{
    private const string Name = "fleet.xlsx";
    private const int MostParts = 2000;
    private const long LargestUnpacked = 60_000_000;

    public static Sheet Read(byte[] bytes, Language language)
    {
        Telling told = new(language);
        try
        {
            RequireHarmless(bytes, told);
            using MemoryStream stream = new(bytes);
            // Shared texts stay in memory: nothing of what was sent is written to the disk.
            OpenXmlConfiguration how = new() { EnableSharedStringCache = false };
            return Sheet.Of(Name, MiniExcel.Query(stream, useHeaderRow: false, excelType: ExcelType.XLSX, configuration: how)
                .Select((row, i) => RowOf(i + 1, (IDictionary<string, object?>)row)), told);
        }
        catch (Exception reason) when (reason is not (Problems.Refusal or OutOfMemoryException))
        {
            // Whatever the reader of workbooks stumbles over, it is the file's fault: it has passed nothing on.
            throw told.Refused(Name, 0, 0, reason.Message, "a workbook (.xlsx) with the table on its first sheet", null,
                "Not a workbook, or damaged");
        }
    }

    /// <summary>The column of a cell's name, from 1; BA7 is 53.</summary>
    private static int ColumnOf(string cell) =>
        cell.TakeWhile(char.IsAsciiLetter).Take(4).Aggregate(0, (column, letter) => (26 * column) + char.ToUpperInvariant(letter) - 'A'
        + 1);

    private static SheetRow RowOf(int number, IDictionary<string, object?> cells) => new(number, [.. cells.Values.Select(CellOf)]);

    private static object? CellOf(object? cell) => cell switch
    {
        null => null,
        DateTime moment => LocalDate.FromDateTime(moment),
        double or float or decimal or int or long => Convert.ToDouble(cell, System.Globalization.CultureInfo.InvariantCulture),
        _ => Convert.ToString(cell, System.Globalization.CultureInfo.InvariantCulture),
    };

    /// <summary>What unpacks to too much, or has XML that declares entities, is not given to the reader of workbooks at all. Sizes that the
    /// file claims are not trusted.</summary>
    private static void RequireHarmless(byte[] bytes, Telling told)
    {
        using ZipArchive zip = new(new MemoryStream(bytes), ZipArchiveMode.Read);
        if (zip.Entries.Count > MostParts)
        {
            throw told.Refused(Name, 0, 0, $"{zip.Entries.Count} parts", $"at most {MostParts}", null, "This is too much for a workbook");
        }

        long left = LargestUnpacked;
        foreach (ZipArchiveEntry entry in zip.Entries)
        {
            using Stream packed = entry.Open();
            using Bounded unpacked = new(packed, () => left, read => left -= read, told);
            if (entry.FullName.EndsWith(".xml", StringComparison.OrdinalIgnoreCase)
                || entry.FullName.EndsWith(".rels", StringComparison.OrdinalIgnoreCase))
            {
                using XmlReader xml = XmlReader
                    .Create(unpacked, new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null });
                while (xml.Read())
                {
                    // The reader of workbooks makes a row as wide as its farthest cell.
                    if (xml is { NodeType: XmlNodeType.Element, LocalName: "c" } && xml.GetAttribute("r") is { } cell
                        && ColumnOf(cell) > Sheet.MostColumns)
                    {
                        throw told.Refused(Name, 0, 0, cell, $"at most {Sheet.MostColumns} columns", null,
                            "Not a table of controllers: there is too much in it");
                    }
                }
            }
            else
            {
                unpacked.CopyTo(Stream.Null);
            }
        }
    }

    /// <summary>Stops where too much has come.</summary>
    private sealed class Bounded(Stream inner, Func<long> left, Action<int> took, Telling told) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count)
        {
            int read = inner.Read(buffer, offset, count);
            took(read);
            return left() >= 0 ? read : throw told.Refused(Name, 0, 0, $"more than {LargestUnpacked / 1_000_000} MB",
                $"at most {LargestUnpacked / 1_000_000} MB unpacked", null, "This is too much for a workbook");
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
