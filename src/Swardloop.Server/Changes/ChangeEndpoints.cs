using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Changes;

/// <summary>Takes in what people did.</summary>
internal static class ChangeEndpoints
{
    private static readonly DateTimeOffset Earliest = new(1970, 1, 1, 0, 0, 0, TimeSpan.Zero), Latest = new(2200, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Adds the endpoint.</summary>
    public static void MapChanges(this RouteGroupBuilder api) =>
        api.MapPost("changes", TakeInAsync).RequireAuthorization(Rule.Write)
            .Accepts<ChangeBatch>("application/json").Produces<ChangeResults>().Problems(400, 409, 413, 507);

    private static async Task<Ok<ChangeResults>> TakeInAsync(HttpRequest request, ClaimsPrincipal person, Journal journal, ServedWorkshop served)
    {
        ChangeBatch batch = await JsonBody.ReadAsync(request, Read);
        if (batch.Workshop is { } made && made != served.Workshop)
        {
            throw new BadInputException(StatusCodes.Status409Conflict, "These changes were made in another workshop.", []);
        }

        Author author = AccountClaims.AuthorOf(person);
        List<ChangeResult> results = [];
        for (int i = 0; i < batch.Changes.Count; i++)
        {
            results.Add(await journal.TakeInAsync(batch.Changes[i], $"changes[{i}]", author, request.HttpContext.RequestAborted));
        }

        return TypedResults.Ok(new ChangeResults(results));
    }

    private static ChangeBatch? Read(JsonFields fields)
    {
        List<Change> changes = [];
        foreach ((JsonElement element, string place) in fields.Items("changes", 0, ChangeBatch.MostChanges, required: true))
        {
            if (JsonFields.Of(element, place, fields.Problems) is { } one && ReadChange(one) is { } change)
            {
                changes.Add(change);
            }
        }

        Guid? workshop = fields.Element("workshop", "a UUID") is { ValueKind: not JsonValueKind.Null } ? Id(fields, "workshop") : null;
        return fields.Problems.Any ? null : new(changes) { Workshop = workshop };
    }

    private static Change? ReadChange(JsonFields fields)
    {
        Guid? id = Id(fields, "id"), record = Id(fields, "record");
        RecordKind? kind = fields.Word<RecordKind>("kind", WireName.Words<RecordKind>(), required: true);
        DateTimeOffset? madeAt = null;
        if (fields.Element("madeAt", "a moment such as 2026-05-14T09:30:00+02:00", required: true) is { } moment)
        {
            if (moment.ValueKind == JsonValueKind.String && moment.TryGetDateTimeOffset(out DateTimeOffset at) && at >= Earliest && at <= Latest)
            {
                madeAt = at;
            }
            else
            {
                fields.Problems.Add(fields.PlaceOf("madeAt"), $"got {JsonFields.Shown(moment)}", "a moment such as 2026-05-14T09:30:00+02:00");
            }
        }

        Dictionary<string, JsonElement> set = [];
        if (Object(fields, "set") is { } given)
        {
            foreach (JsonProperty field in given.EnumerateObject())
            {
                set[field.Name] = field.Value.Clone();
            }
        }

        Dictionary<string, IReadOnlyList<Guid>> seen = [];
        if (fields.Has("seen") && Object(fields, "seen") is { } replaced)
        {
            foreach (JsonProperty field in replaced.EnumerateObject())
            {
                List<Guid> ids = [];
                string place = $"{fields.PlaceOf("seen")}.{field.Name}";
                foreach ((JsonElement element, string at) in JsonFields.Items(field.Value, place, 0, ChangeChecks.MostSeen, fields.Problems))
                {
                    if (element.ValueKind == JsonValueKind.String && element.TryGetGuid(out Guid one))
                    {
                        ids.Add(one);
                    }
                    else
                    {
                        fields.Problems.Add(at, $"got {JsonFields.Shown(element)}", "the id of a change");
                    }
                }

                seen[field.Name] = ids;
            }
        }

        return fields.Problems.Any ? null : new(id!.Value, kind!.Value, record!.Value, set, seen, madeAt!.Value);
    }

    private static JsonElement? Object(JsonFields fields, string name)
    {
        if (fields.Element(name, "an object", required: true) is not { } value)
        {
            return null;
        }

        if (value.ValueKind == JsonValueKind.Object)
        {
            return value;
        }

        fields.Problems.Add(fields.PlaceOf(name), $"got {JsonFields.Shown(value)}", "an object");
        return null;
    }

    private static Guid? Id(JsonFields fields, string name)
    {
        if (fields.Element(name, "a UUID", required: true) is not { } value)
        {
            return null;
        }

        if (value.ValueKind == JsonValueKind.String && value.TryGetGuid(out Guid id))
        {
            return id;
        }

        fields.Problems.Add(fields.PlaceOf(name), $"got {JsonFields.Shown(value)}", "a UUID");
        return null;
    }
}
