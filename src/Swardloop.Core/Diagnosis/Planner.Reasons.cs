namespace Swardloop.Core.Diagnosis;

/// <summary>Why a step is worth taking.</summary>
internal sealed partial class Planner
{
    /// <summary>Whether a test tells anything that a person would act on: moves some cause's odds, or narrows the place.</summary>
    private bool Tells(Evaluated test)
    {
        if (test.Cure > 0.02 || (test.Step.Kind == StepKind.LoopResistance && !_history.LoopWasMeasured))
        {
            return true;
        }

        // By the atoms: a test moves something when some outcome's odds differ by more than a little between what is likely.
        double moved = 0;
        foreach (double[] row in test.Table)
        {
            double probability = _plan.Mended * row[^1];
            for (int i = 0; i < _weights.Length; i++)
            {
                probability += _weights[i] * row[i];
            }

            for (int i = 0; i < _weights.Length; i++)
            {
                moved += _weights[i] * Math.Abs(row[i] - probability);
            }

            moved += _plan.Mended * Math.Abs(row[^1] - probability);
        }

        return moved > LeastTold;
    }

    /// <summary>Why a step is worth taking, as facts.</summary>
    public StepReason Reason(Evaluated step, double saves)
    {
        int causes = (int)CauseKind.None + 1;
        double[] before = new double[causes], moved = new double[causes];
        double expectedWidth = 0;
        double width = Width(_ => 1);
        AddKinds(before, _ => 1, _plan.Mended);
        for (int o = 0; o < step.Table.Length; o++)
        {
            double[] row = step.Table[o];
            double[] after = new double[causes];
            AddKinds(after, i => row[i], _plan.Mended * row[^1]);
            double probability = after.Sum();
            if (probability > 1e-9)
            {
                for (int c = 0; c < causes; c++)
                {
                    moved[c] += Math.Abs(after[c] - (before[c] * probability));
                }

                expectedWidth += probability * Width(i => row[i]);
            }
        }

        Cause[] apart = [.. Enumerable.Range(0, causes).Where(c => moved[c] > 0.05).OrderByDescending(c => moved[c]).Take(3).Select(c => new Cause((CauseKind)c))];
        bool narrows = step.Table.Length > 0 && width > 0 && expectedWidth < 0.9 * width;
        return new(step.Cure, apart, narrows ? width : null, narrows ? expectedWidth : null, saves)
        {
            AsksAgain = step.Table.Length > 0 && SymptomModel.Covers(step.Step.Kind) && AnswersTo(step.Step).LastOrDefault() is { } answer
                ? IsDoubted(answer) ? AskedAgain.DoesNotFit : AskedAgain.MayHaveChanged : null,
        };

        void AddKinds(double[] target, Func<int, double> likelihood, double mended)
        {
            for (int i = 0; i < _plan.Atoms.Length; i++)
            {
                target[(int)_plan.Atoms[i].Kind] += _plan.Atoms[i].Weight * likelihood(i);
            }

            target[(int)CauseKind.None] += mended;
        }
    }

    /// <summary>Metres of wire, densest first, that hold 90 % of a wire fault's probability.</summary>
    private double Width(Func<int, double> likelihood)
    {
        double[] mass = new double[_plan.Cells.Length];
        for (int i = 0; i < _plan.Atoms.Length; i++)
        {
            foreach ((int cell, double share) in _plan.Atoms[i].Spread)
            {
                mass[cell] += share * _plan.Atoms[i].Weight * likelihood(i);
            }
        }

        double left = 0.9 * mass.Sum(), width = 0;
        foreach (int cell in Enumerable.Range(0, mass.Length).OrderByDescending(c => mass[c] / Math.Max(Length(c), 0.6)))
        {
            if (left <= 0)
            {
                break;
            }

            width += Math.Max(Length(cell), 0.6) * Math.Min(1, left / Math.Max(mass[cell], 1e-300));
            left -= mass[cell];
        }

        return width;

        double Length(int cell) => _plan.Cells[cell].ToMetres - _plan.Cells[cell].FromMetres;
    }
}
