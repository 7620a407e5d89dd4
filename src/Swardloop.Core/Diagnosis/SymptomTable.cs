namespace Swardloop.Core.Diagnosis;

/// <summary>What a case's symptoms say under each condition, worked out once for all beliefs about the case. Not safe for use by two threads at once.</summary>
/// <param name="physics">The yard.</param>
/// <param name="complaint">The owner's words; none: empty.</param>
internal sealed class SymptomTable(YardPhysics physics, string complaint = "")
{
    private readonly Dictionary<(int Index, Condition Condition), double[]> _logs = [];

    /// <summary>The model behind it.</summary>
    public SymptomModel Model { get; } = new(physics);

    /// <summary>What the complaint says.</summary>
    public ComplaintModel Complaint { get; } = new(physics, complaint);

    /// <summary>Log-likelihood of one symptom under a condition, for each value of the reach constant.</summary>
    /// <param name="symptom">A symptom of the case that this table is for.</param>
    /// <param name="condition">What is wrong at that moment.</param>
    public double[] Logs(CaseEvidence.Item symptom, Condition condition)
    {
        if (!_logs.TryGetValue((symptom.Index, condition), out double[]? logs))
        {
            logs = new double[physics.Profiles.Count];
            for (int node = 0; node < logs.Length; node++)
            {
                logs[node] = Math.Log(Model.Likelihood(symptom.Seen, condition, physics.Profiles[node].ReachFactor));
            }

            _logs.Add((symptom.Index, condition), logs);
        }

        return logs;
    }
}
