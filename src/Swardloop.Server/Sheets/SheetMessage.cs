using System.Text;
using MimeKit;
using Swardloop.Documents;
using Swardloop.Model.Sheets;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Sheets;

/// <summary>A sheet as a letter (RFC 5322): the sheet as text, the PDF with it. A draft that any mail program opens, or a letter to be sent by the workshop's own mail server.</summary>
internal static class SheetMessage
{
    /// <summary>Writes a draft.</summary>
    /// <param name="sheet">What is sent.</param>
    /// <param name="workshop">Who sends it; without an address the mail program puts its own.</param>
    /// <param name="owner">To whom; without an address nobody stands there yet.</param>
    /// <param name="at">When it is made.</param>
    public static byte[] Of(Sheet sheet, RecordState? workshop, RecordState? owner, DateTimeOffset at)
    {
        using MimeMessage message = Letter(sheet, AddressOf(workshop), AddressOf(owner), at);
        message.Headers.Add("X-Unsent", "1");
        using MemoryStream bytes = new();
        FormatOptions form = FormatOptions.Default.Clone();
        form.NewLineFormat = NewLineFormat.Dos;
        message.WriteTo(form, bytes);
        return bytes.ToArray();
    }

    /// <summary>A letter to be sent.</summary>
    /// <param name="sheet">What is sent.</param>
    /// <param name="sender">The workshop's name; null for none.</param>
    /// <param name="from">Its address.</param>
    /// <param name="to">To which address.</param>
    /// <param name="id">The sending: the same id makes the same Message-ID, by which programs know a letter that came twice.</param>
    /// <param name="at">When it is sent.</param>
    public static MimeMessage ToSend(Sheet sheet, string? sender, string from, string to, Guid id, DateTimeOffset at)
    {
        MimeMessage message = Letter(sheet, new(Encoding.UTF8, sender ?? "", from), new MailboxAddress("", to), at);
        message.MessageId = $"{id:N}@{from[(from.LastIndexOf('@') + 1)..]}";
        return message;
    }

    private static MimeMessage Letter(Sheet sheet, MailboxAddress? from, MailboxAddress? to, DateTimeOffset at)
    {
        MimeMessage message = new() { Subject = $"{sheet.Title}: {sheet.Yard}", Date = at };
        if (from is not null)
        {
            message.From.Add(from);
        }

        if (to is not null)
        {
            message.To.Add(to);
        }

        message.Headers.Add("Content-Language", sheet.Language);
        BodyBuilder body = new() { TextBody = SheetText.Of(sheet).Replace("\n", "\r\n", StringComparison.Ordinal) };
        body.Attachments.Add($"{SheetEndpoints.FileName(sheet)}.pdf", SheetPdf.Of(sheet), new ContentType("application", "pdf"));
        message.Body = body.ToMessageBody();
        return message;
    }

    private static MailboxAddress? AddressOf(RecordState? record) =>
        record?.Text("email") is { Length: > 0 } email && MailboxAddress.TryParse(email.Trim(), out MailboxAddress? parsed) && parsed is not null
            ? new MailboxAddress(Encoding.UTF8, record.Text("name") ?? "", parsed.Address) : null;
}
