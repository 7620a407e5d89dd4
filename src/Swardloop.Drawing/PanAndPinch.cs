namespace Swardloop.Drawing;

/// <summary>Turns pointers into moves of a view: one pushes the paper, two pinch and push, a press that stays where it is touches a spot.</summary>
public sealed class PanAndPinch
{
    private readonly Dictionary<int, PointerTouch> _down = [];
    private PointerTouch _first;
    private bool _slipped;

    /// <summary>Whether any pointer is pressed.</summary>
    public bool IsActive => _down.Count > 0;

    /// <summary>How many pointers are pressed.</summary>
    public int Pointers => _down.Count;

    /// <summary>Whether the press has become a push or a pinch, and can no longer be a touch of one spot.</summary>
    public bool HasSlipped => _slipped;

    /// <summary>Takes one event.</summary>
    /// <param name="touch">The event.</param>
    /// <param name="view">The view before it.</param>
    /// <param name="tapped">The spot that was touched, when this event ended a touch of one spot.</param>
    /// <returns>The view after it.</returns>
    public PlanView Take(PointerTouch touch, PlanView view, out PointerTouch? tapped)
    {
        tapped = null;
        switch (touch.Stage)
        {
            case PointerStage.Down:
                if (_down.Count == 0)
                {
                    (_first, _slipped) = (touch, false);
                }

                _down[touch.Id] = touch;
                _slipped |= _down.Count > 1;
                return view;
            case PointerStage.Move when _down.TryGetValue(touch.Id, out PointerTouch before):
                _slipped |= Distance(_first, touch) > touch.SlipPixels;
                if (!_slipped)
                {
                    return view;
                }

                if (_down.Count == 1)
                {
                    _down[touch.Id] = touch;
                    return view.Panned(touch.X - before.X, touch.Y - before.Y);
                }

                PointerTouch other = _down.First(pair => pair.Key != touch.Id).Value;
                _down[touch.Id] = touch;
                double factor = Distance(touch, other) / Math.Max(1, Distance(before, other));
                return view.Panned((touch.X - before.X) / 2, (touch.Y - before.Y) / 2)
                    .Zoomed(factor, (touch.X + other.X) / 2, (touch.Y + other.Y) / 2);
            case PointerStage.Up:
                if (_down.Remove(touch.Id) && !_slipped)
                {
                    tapped = touch;
                }

                return view;
            case PointerStage.Cancel:
                _down.Remove(touch.Id);
                _slipped = true;
                return view;
            default:
                return view;
        }
    }

    private static double Distance(PointerTouch a, PointerTouch b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));
}
