using System.Globalization;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Cases;

/// <content>Writing.</content>
public static partial class ObservationJson
{
    /// <summary>An observation as a file holds it, every parameter written.</summary>
    public static JsonObject ToJson(Observation observation)
    {
        JsonObject json = new()
        {
            [StepCatalogue.Of(observation.Step).IsRepair ? "repair" : "test"] = WireName.Of(observation.Step),
        };
        switch (observation)
        {
            case Observation.OutletCheck o:
                json["value"] = o.Live ? "live" : "dead";
                break;
            case Observation.SupplyVoltage o:
                json["volts"] = o.Volts;
                json["nominalVolts"] = o.NominalVolts;
                if (o.Loaded)
                {
                    json["loaded"] = true;
                }

                break;
            case Observation.StationLamp o:
                json["value"] = WireName.Of(o.State);
                break;
            case Observation.MowerStart o:
                json["place"] = WireName.Of(o.Place);
                json["value"] = WireName.Of(o.Outcome);
                break;
            case Observation.MowerReach o:
                json["distanceM"] = o.DistanceMetres;
                json["bound"] = o.AtLeast ? "at-least" : "exact";
                break;
            case Observation.FollowWire o:
                json["value"] = WireName.Of(o.Outcome);
                break;
            case Observation.WireCrossing o:
                Put(json, "atM", o.AtMetres);
                json["nearMetal"] = o.NearMetal;
                json["value"] = o.Crossed ? "crossed" : "respected";
                break;
            case Observation.LoopResistance o:
                PutReading(json, o.Ohms);
                json["leadOhms"] = o.LeadOhms;
                json["meter"] = MeterJson(o.Meter);
                break;
            case Observation.EarthResistance o:
                PutReading(json, o.Ohms);
                break;
            case Observation.Insulation o:
                json["testVolts"] = o.TestVolts;
                json["megohms"] = o.Megohms;
                break;
            case Observation.EarthRatio o:
                json["voltsA"] = o.VoltsA;
                json["voltsB"] = o.VoltsB;
                break;
            case Observation.EndCapacitance o:
                json["nanofaradA"] = Scaled(o.FaradA, 1e9);
                json["nanofaradB"] = Scaled(o.FaradB, 1e9);
                break;
            case Observation.SplitResistance o:
                json["atM"] = o.AtMetres;
                json["ohmsA"] = o.OhmsA;
                json["ohmsB"] = o.OhmsB;
                json["leadOhms"] = o.LeadOhms;
                break;
            case Observation.Bypass o:
                json["fromM"] = o.FromMetres;
                json["toM"] = o.ToMetres;
                PutReading(json, o.Ohms);
                break;
            case Observation.ToneTrace o:
                json["atM"] = o.AtMetres;
                json["from"] = WireName.Of(o.From);
                json["value"] = WireName.Of(o.Strength);
                break;
            case Observation.Reflection o:
                json["from"] = WireName.Of(o.From);
                if (o.DelaySeconds is { } delay)
                {
                    json["delayNs"] = Scaled(delay, 1e9);
                }

                json["kind"] = WireName.Of(o.Kind);
                break;
            case Observation.Look o:
                json["fromM"] = o.FromMetres;
                json["toM"] = o.ToMetres;
                json["value"] = o.Damage ? "damage" : "nothing";
                break;
            case Observation.SubstituteLoop o:
                json["value"] = o.Runs ? "runs" : "no-signal";
                break;
            case Observation.SubstituteMower o:
                json["value"] = o.Runs ? "runs" : "no-signal";
                break;
            case Observation.NeighbourOff o:
                json["value"] = o.Cured ? "cured" : "same";
                break;
            case Observation.MowerCheck o:
                json["value"] = o.Runs ? "runs" : "same";
                break;
            case Observation.AcRatio o:
                json["voltsA"] = o.VoltsA;
                json["voltsB"] = o.VoltsB;
                json["hertz"] = o.Hertz;
                break;
            case Observation.GuideResistance o:
                if (o.Guide is not null)
                {
                    json["guide"] = o.Guide;
                }

                json["ohmsA"] = o.OhmsA;
                json["ohmsB"] = o.OhmsB;
                json["leadOhms"] = o.LeadOhms;
                json["meter"] = MeterJson(o.Meter);
                break;
            case Observation.JointDrop o:
                json["atM"] = o.AtMetres;
                json["milliamps"] = Scaled(o.Amperes, 1e3);
                json["millivolts"] = Scaled(o.Volts, 1e3);
                break;
            case Observation.PinProbe o:
                json["atM"] = o.AtMetres;
                json["ohmsA"] = o.OhmsA;
                json["ohmsB"] = o.OhmsB;
                json["leadOhms"] = o.LeadOhms;
                break;
            case Observation.EarthGradient o:
                json["atM"] = o.AtMetres;
                json["spacingM"] = o.SpacingMetres;
                json["value"] = WireName.Of(o.Outcome);
                if (o.Volts is { } volts)
                {
                    json["microvolts"] = Scaled(volts, 1e6);
                }

                break;
            case Observation.TerminalLook o:
                json["value"] = WireName.Of(o.State);
                break;
            case Observation.Wiggle o:
                json["atM"] = o.AtMetres;
                json["value"] = o.Jumps ? "jumps" : "steady";
                break;
            case Observation.ChargeCheck o:
                json["value"] = o.Charges ? "charges" : "does-not";
                break;
            case Observation.NotDone o:
                PutParameters(json, o.Asked);
                json["value"] = NotDone;
                break;
            case Observation.RepairDone o:
                Put(json, "atM", o.AtMetres);
                Put(json, "fromM", o.FromMetres);
                Put(json, "toM", o.ToMetres);
                if (o.Found is not null)
                {
                    json["found"] = o.Found;
                }

                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(observation), observation, "Not an observation that files know.");
        }

        if (observation.Wire is { } wire)
        {
            json["wire"] = wire;
        }

        if (observation.At is { } at)
        {
            json["at"] = at.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", CultureInfo.InvariantCulture);
        }

        if (observation.By != Person.Technician)
        {
            json["by"] = WireName.Of(observation.By);
        }

        if (observation.Conditions != Conditions.None)
        {
            json["conditions"] = new JsonArray(
                [.. ConditionWords.Where(word => observation.Conditions.HasFlag(word.Value)).Select(word => (JsonNode)JsonValue.Create(word.Key))]);
        }

        if (observation.Note is not null)
        {
            json["note"] = observation.Note;
        }

        return json;
    }

    private static void Put(JsonObject json, string name, double? value)
    {
        if (value is { } there)
        {
            json[name] = there;
        }
    }

    private static void PutReading(JsonObject json, double? ohms)
    {
        if (ohms is { } shown)
        {
            json["ohms"] = shown;
        }
        else
        {
            json["value"] = OverRange;
        }
    }

    /// <summary>A value in the file's unit, without the last digits that scaling makes up: 12.3 nF stays 12.3.</summary>
    private static double Scaled(double value, double factor) =>
        double.Parse((value * factor).ToString("G14", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static JsonObject MeterJson(MeterAccuracy meter) => new()
    {
        ["percent"] = meter.PercentOfReading,
        ["digits"] = meter.Digits,
        ["resolutionOhms"] = meter.ResolutionOhms,
    };

    /// <summary>Parameters of a step that was not done; those it does not have are not written.</summary>
    private static void PutParameters(JsonObject json, Step asked)
    {
        Put(json, "atM", asked.AtMetres);
        Put(json, "fromM", asked.FromMetres);
        Put(json, "toM", asked.ToMetres);
        if (asked.From is { } from)
        {
            json["from"] = WireName.Of(from);
        }

        if (asked.Place is { } place)
        {
            json["place"] = WireName.Of(place);
        }

        if (asked.NearMetal is { } nearMetal)
        {
            json["nearMetal"] = nearMetal;
        }

        Put(json, "testVolts", asked.TestVolts);
        if (asked.Guide is { } guide)
        {
            json["guide"] = guide;
        }

        if (asked.Loaded is { } loaded)
        {
            json["loaded"] = loaded;
        }

        Put(json, "spacingM", asked.SpacingMetres);
    }
}
