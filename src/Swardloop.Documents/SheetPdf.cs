using SkiaSharp;
using Swardloop.Model.Sheets;

namespace Swardloop.Documents;

/// <summary>A sheet as PDF, A4: text as text, pictures as vectors, the fonts in the file. The same sheet gives the same bytes: no clock is read.</summary>
public static class SheetPdf
{
    /// <summary>Writes it.</summary>
    public static byte[] Of(Sheet sheet)
    {
        using MemoryStream stream = new();
        SKDocumentPdfMetadata metadata = new(72)
        {
            Title = $"{sheet.Title}: {sheet.Yard}",
            Author = sheet.Workshop.Count > 0 ? sheet.Workshop[0] : "Swardloop",
            Creator = "Swardloop",
            Producer = "Swardloop",
            Subject = sheet.Title,
        };
        using (SKDocument document = SKDocument.CreatePdf(stream, metadata) ?? throw new InvalidOperationException("No PDF can be made on this machine."))
        {
            using PdfPages pages = new(document, sheet);
            foreach (SheetBlock block in sheet.Blocks)
            {
                pages.Add(block);
            }

            pages.End();
            document.Close();
        }

        return PdfLanguage.Tag(stream.ToArray(), sheet.Language);
    }
}
