using System.Text;
using MimeKit;
using Swardloop.Documents;
using Swardloop.Model.Sheets;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Sheets;

/// <summary>A sheet as a letter (RFC 5322) that any mail program opens as a draft: the sheet as text, the PDF with it. Nothing is sent from here.</summary>
internal static class SheetMessage
{
    /// <summary>Writes it.</summary>
    /// <param name="sheet">What is sent.</param>
    /// <param name="workshop">Who sends it; without an address the mail program puts its own.</param>
    /// <param name="owner">To whom; without an address nobody stands there yet.</param>
    /// <param name="at">When it is made.</param>
    public static byte[] Of(Sheet sheet, RecordState? workshop, RecordState? owner, DateTimeOffset at)
    {
        using MimeMessage message = new() { Subject = $"{sheet.Title}: {sheet.Yard}", Date = at };
        if (AddressOf(workshop) is { } from)
        {
            message.From.Add(from);
        }

        if (AddressOf(owner) is { } to)
        {
            message.To.Add(to);
        }

        message.Headers.Add("X-Unsent", "1");
        message.Headers.Add("Content-Language", sheet.Language);
        BodyBuilder body = new() { TextBody = SheetText.Of(sheet).Replace("\n", "\r\n", StringComparison.Ordinal) };
        body.Attachments.Add($"{SheetEndpoints.FileName(sheet)}.pdf", SheetPdf.Of(sheet), new ContentType("application", "pdf"));
        message.Body = body.ToMessageBody();
        using MemoryStream bytes = new();
        FormatOptions form = FormatOptions.Default.Clone();
        form.NewLineFormat = NewLineFormat.Dos;
        message.WriteTo(form, bytes);
        return bytes.ToArray();
    }

    private static MailboxAddress? AddressOf(RecordState? record) =>
        record?.Text("email") is { Length: > 0 } email && MailboxAddress.TryParse(email.Trim(), out MailboxAddress? parsed) && parsed is not null
            ? new MailboxAddress(Encoding.UTF8, record.Text("name") ?? "", parsed.Address) : null;
}
