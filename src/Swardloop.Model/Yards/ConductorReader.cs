using Swardloop.Core.Conductors;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>Reads <c>loop.conductor</c>: exactly one of its three forms.</summary>
internal static class ConductorReader
{
    private static readonly string[] Sizes = ["areaMm2", "awg", "ohmsPerKmAt20C"];

    public static Conductor? Read(JsonFields conductor)
    {
        ProblemList problems = conductor.Problems;
        int before = problems.Count;
        ConductorMaterial? material = YardWords.ReadMaterial(conductor, "material");
        double? area = conductor.Number("areaMm2", YardLimits.Area);
        int? awg = conductor.WholeNumber("awg", YardLimits.LeastAwg, YardLimits.MostAwg);
        double? ohmsPerKm = conductor.Number("ohmsPerKmAt20C", YardLimits.OhmsPerKm);
        double? iacs = conductor.Number("conductivityPercentIacs", YardLimits.PercentIacs);
        int? conductorClass = conductor.WholeNumber("class", 1, 5);
        bool? coated = conductor.Flag("coated");

        string[] given = [.. Sizes.Where(conductor.Has)];
        if (given.Length != 1)
        {
            problems.Add(conductor.Place, given.Length == 0 ? "no size given" : $"got {string.Join(" and ", given)}", $"exactly one of {string.Join(", ", Sizes)}");
        }

        if (!conductor.Has("material") && !conductor.Has("ohmsPerKmAt20C"))
        {
            problems.Add(conductor.PlaceOf("material"), "missing", string.Join(", ", YardWords.Materials));
        }

        bool clad = material is ConductorMaterial.CopperCladSteel or ConductorMaterial.CopperCladAluminium;
        if (clad && !conductor.Has("ohmsPerKmAt20C") && !conductor.Has("conductivityPercentIacs"))
        {
            problems.Add(conductor.PlaceOf("conductivityPercentIacs"), "missing: a clad wire's resistance depends on it", YardLimits.PercentIacs.ToString());
        }

        if (!clad && conductor.Has("conductivityPercentIacs"))
        {
            problems.Add(conductor.PlaceOf("conductivityPercentIacs"), "given for a wire that is not clad", "only with copper-clad-steel and copper-clad-aluminium");
        }

        CheckStandard(conductor, material, conductorClass, coated);
        return problems.Count > before
            ? null
            : new Conductor
            {
                Material = material ?? ConductorMaterial.Copper,
                AreaSquareMetres = area / 1e6,
                Awg = awg,
                OhmsPerMetreAt20C = ohmsPerKm / 1e3,
                ConductivityShareIacs = iacs / 100,
                ConductorClass = conductorClass,
                Coated = coated ?? false,
            };
    }

    /// <summary>IEC 60228 knows class 1, 2 and 5 of plain and coated copper, and class 1 and 2 of plain aluminium; all by area.</summary>
    private static void CheckStandard(JsonFields conductor, ConductorMaterial? material, int? conductorClass, bool? coated)
    {
        bool aluminium = material == ConductorMaterial.Aluminium;
        if (conductorClass is int number)
        {
            if (number is 3 or 4 || (aluminium && number == 5))
            {
                conductor.Problems.Add(conductor.PlaceOf("class"), $"got {number}", aluminium ? "1 or 2 for aluminium" : "1, 2 or 5");
            }

            if (!conductor.Has("areaMm2") || material is not (ConductorMaterial.Copper or ConductorMaterial.Aluminium))
            {
                conductor.Problems.Add(conductor.PlaceOf("class"), "given without what the standard goes by", "with areaMm2 and material copper or aluminium");
            }
        }

        if (coated == true && material is not ConductorMaterial.Copper)
        {
            conductor.Problems.Add(conductor.PlaceOf("coated"), "given for a wire that is not copper", "true only with material copper");
        }
    }
}
