using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;

namespace Swardloop.Server.Advising;

/// <summary>Advice for a case file, and the workshop's counts of causes that it may rest on.</summary>
internal static class AdviceEndpoints
{
    // As the command line prints it: the same bytes.
    private static readonly JsonWriterOptions Form = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Adds the endpoints.</summary>
    public static void MapAdvice(this RouteGroupBuilder api)
    {
        api.MapPost("advice", AdviseAsync).RequireAuthorization(Rule.Read).Accepts<object>("application/json").Produces<object>().Problems(400, 413, 503);
        api.MapGet("priors", PriorsAsync).RequireAuthorization(Rule.Read).Produces<object>();
    }

    private static async Task<FileContentHttpResult> AdviseAsync(HttpRequest request, string? priors, WorkshopPriors own, ComputingQueue queue)
    {
        bool asks = priors is null or "default" or "workshop"
            ? priors == "workshop"
            : throw BadInputException.Of("priors", "is not known", "default, workshop");
        ReadOnlyMemory<byte> bytes = await JsonBody.BytesAsync(request);
        CancellationToken cancellation = request.HttpContext.RequestAborted;
        Checked<CaseFile> read = CaseFile.Read(bytes, "case", _ => null);
        if (!read.IsGood)
        {
            throw new BadInputException(StatusCodes.Status400BadRequest, "The case cannot be read.", read.Problems);
        }

        PriorsFile? file = asks ? await own.FileAsync(cancellation) : null;
        Advice advice = await queue.AdviseAsync(read.Value, file, cancellation);
        ArrayBufferWriter<byte> output = new();
        using (Utf8JsonWriter json = new(output, Form))
        {
            AdviceJson.Write(advice, read.Value.Case, json);
        }

        output.Write("\n"u8);
        return TypedResults.Bytes(output.WrittenSpan.ToArray(), "application/json");
    }

    private static async Task<FileContentHttpResult> PriorsAsync(WorkshopPriors own, CancellationToken cancellation) =>
        TypedResults.Bytes((await own.FileAsync(cancellation)).ToUtf8(), "application/json");
}
