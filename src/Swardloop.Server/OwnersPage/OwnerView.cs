using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Owners;

namespace Swardloop.Server.OwnersPage;

/// <summary>What an owner's page shows.</summary>
/// <param name="Path">The page's own address, from the root.</param>
/// <param name="Texts">Its language.</param>
/// <param name="WorkshopName">Who asks.</param>
/// <param name="Phone">Where to call; null when the workshop has not said.</param>
/// <param name="Yard">The yard.</param>
/// <param name="Finished">Whether the mower runs.</param>
/// <param name="Question">What is asked now; null when nothing is.</param>
/// <param name="CautionsRead">Whether the question's cautions were read.</param>
/// <param name="Answers">What was answered so far, oldest first.</param>
public sealed record OwnerView(
    string Path, OwnerTexts Texts, string WorkshopName, string? Phone, Yard Yard, bool Finished, Step? Question, bool CautionsRead,
    IReadOnlyList<OwnerAnswer> Answers)
{
    /// <summary>What just happened, to be said first; null for nothing.</summary>
    public string? News { get; init; }

    /// <summary>What was filled in and could not be taken, by field.</summary>
    public IReadOnlyDictionary<string, string> Filled { get; init; } = new Dictionary<string, string>();

    /// <summary>What is wrong with it.</summary>
    public IReadOnlyList<Problem> Problems { get; init; } = [];

    /// <summary>The stretches of the walk that is asked for (m from A), in its order; empty when the question is no walk.</summary>
    public IReadOnlyList<(double FromMetres, double ToMetres)> Walk { get; init; } = [];

    /// <summary>How many questions there may be, this one and those after it.</summary>
    public int MostQuestions { get; init; }

    /// <summary>How long this question takes (min).</summary>
    public double Minutes { get; init; }

    /// <summary>By when the workshop has promised to be heard of; null when it has not said.</summary>
    public DateOnly? PromisedOn { get; init; }

    /// <summary>The last thing that was known when the page was made: an answer sent from a page that did not know what came since is told so.</summary>
    public Guid? Last { get; init; }

    /// <summary>What is wrong with the photo; null for nothing.</summary>
    public string? PhotoProblem { get; init; }
}

/// <summary>One answer that arrived.</summary>
/// <param name="Words">The answer in words.</param>
/// <param name="ArrivedAt">When.</param>
/// <param name="Seen">Whether somebody of the workshop has looked at it.</param>
public sealed record OwnerAnswer(string Words, DateTimeOffset ArrivedAt, bool Seen)
{
    /// <summary>Whether it is a photo, of which nobody knows who has looked at it.</summary>
    public bool IsPhoto { get; init; }
}
