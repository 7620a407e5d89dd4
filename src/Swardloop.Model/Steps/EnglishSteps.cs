using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>Steps and cautions in English. Names of the trade: earth fault, open circuit, voltage ratio, tone generator.</summary>
internal static class EnglishSteps
{
    private const string EndsBack = "Put the wire ends back on the terminals they came from.";

    private const string EndsOff = "Unplug the station. Take all wire ends off it, a guide wire's too; mark which sat where.";

    private const string LampFirst = "Look at the station's lamp. Dark, or in alarm? Do not start the mower: note that this could not be done.";

    private const string OwnerLampFirst = "Look at the station's lamp first. Is it dark, or does it show an alarm? Then do not start the mower: tell us.";

    private const string ProveWire =
        "Prove that it is the loop: meter tried, no AC, no DC, and continuity or tone from the station's end. In doubt, do not cut.";

    private const string WalkBehind = "Walk behind it, within reach of the stop button.";

    private const string Stake = "Push a short stake a hand deep into moist soil, two long steps or more from the wire.";

    private static readonly Dictionary<Caution, string> Cautions = new()
    {
        [Caution.NoThunder] = "Thunder near, or on its way? Stop. Measure nothing and touch no wire until it has passed.",
        [Caution.MainsStayClosed] =
            "Never open an outlet, plug, power supply or station: there is mains inside, even when it seems dead. Wet or damaged? Hands off, and call an electrician.",
        [Caution.DryHandsAtSwitchboard] =
            "At the switchboard: dry hands, dry floor, cover on. Smells burnt, is wet or warm? Do not touch it; call an electrician. A residual-current device that trips again stays off.",
        [Caution.ProbesStayOutOfOutlets] = "Never put the probes into an outlet or onto a mains plug.",
        [Caution.ProveWireBeforeCutting] =
            "Before you cut, open or pierce any buried wire: try the meter on a known source, then find no AC and no DC volts on it; continuity or the tone from the station's end shows that it is the loop. In doubt, do not cut.",
        [Caution.LocateServices] =
            "Before you dig, cut or drive in a stake: have buried cables and pipes located, as your local rules require. Work on them is for licensed people.",
        [Caution.NoLiveElectricFence] = "Is an electric fence near the wire or the stake? Have it switched off first. Connect nothing while it is live.",
        [Caution.AllDisconnectedForTestVoltage] =
            "The tester's voltage can give a painful shock and destroys electronics: every wire off the station, the mower away from it, people and animals off the lawn. Discharge the wire afterwards.",
        [Caution.StationUnplugged] = "Unplug the station before you touch the wire, and take all wire ends off it before you measure or cut.",
        [Caution.RunOnlyInsideLiveLoop] =
            "Run the mower only inside a working loop: not while the station is dark, its lamp in alarm or the loop open, nor where a road, water, a drop or people lie beyond the wire.",
        [Caution.ClearOfRunningMower] =
            "Keep children, other people and animals off the lawn while the mower runs. Stay behind it, within reach of the stop button. Press stop before a hand or foot comes near it.",
        [Caution.MowerIsolated] = "Mower off, and its key or battery out, before hands or feet come near it. The blades are sharp even when they stand still.",
        [Caution.CarryBladesAway] = "Carry the mower switched off, with gloves on and its blades turned away from you.",
        [Caution.MowerBatteryOut] =
            "Take the mower's battery out before you open or turn it over. Never short, open or pierce it; do not charge one that is swollen, wet or damaged.",
        [Caution.ExtraLowVoltageOnly] = "Feed the loop only from a battery of 12 V or less or from the tone generator. Never from a charger or anything on the mains.",
        [Caution.BatteryCurrentLimited] =
            "Use a dry battery, or one with a fuse or series resistor; never a car battery: 12 V across 1 Ω drives 12 A. Connect it only while you read.",
        [Caution.MeterOnVolts] = "Whenever you measure volts: red lead in V, never in A. The tips must not touch each other while a source is connected.",
        [Caution.SafetyIsolatedSupply] =
            "The new supply is of the same kind: safety-isolated, for outdoors where it hangs outdoors, same voltage, AC or DC as before. Nothing else will do.",
    };

    private static readonly string[] ServiceFinish =
    [
        "Put guards and covers back before the key or battery goes in.",
        "Carry it to a short test loop on level ground and try it there before it goes back to its lawn.",
    ];

    /// <summary>The wording.</summary>
    public static StepTexts Make() => new("en", Steps(), Cautions);

    private static Dictionary<StepKind, StepText> Steps() => new()
    {
        [StepKind.OutletCheck] = new("Try the outlet",
        [
            "Unplug the station's power supply.",
            "Plug another appliance, known to work, into the same outlet.",
            "Note: live when it runs, dead when it does not. A dead outlet is not safe to open.",
            "Take the appliance out. Plug the power supply back in.",
        ])
        {
            HowForOwner =
            [
                "Take the station's plug out of its outlet.",
                "Plug in something that surely works, such as a lamp.",
                "Does it work? Then the outlet is live. If not, it is dead. Never open it, dead or not.",
                "Put the station's plug back.",
            ],
        },
        [StepKind.SupplyVoltage] = new("Measure the power supply",
        [
            "Pull the power supply's low-voltage plug off the station. Leave the mains side alone.",
            "Read the label: how many volts, AC or DC.",
            "Meter on that kind of volts, range above it. Black lead in COM, red lead in V, never in A.",
            "Measure at the low-voltage plug. The two tips must not touch each other.",
            "Asked for loaded? Plug back on the station, measure at its contacts with fine probes that cannot touch each other.",
            "Note the volts measured, the volts on the label, and whether the station drew from it.",
        ]),
        [StepKind.StationLamp] = new("Look at the station's lamp",
        [
            "Look at the lamp for half a minute. Shade it from the sun.",
            "Note: off, normal, flicker or alarm. The maker's manual says what this model's lamp shows.",
        ])
        {
            HowForOwner =
            [
                "Go to the station and shade its lamp with your hand.",
                "Watch it for half a minute.",
                "Say what you see: dark, as always, unsteady, or an alarm.",
            ],
        },
        [StepKind.MowerStart] = new("Start the mower",
        [
            LampFirst,
            "Carry the mower, switched off, blades away from you, to the place named: close to the wire, or in the middle of the lawn.",
            "Set it on the grass, step back behind it, start it.",
            "Note: runs, reports no signal, or reports that it is outside.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Switch the mower off. With gloves on, carry it to the place we named: beside the wire, or in the middle of the lawn.",
                "Set it down on the grass, step back behind it, start it.",
                "Say what it does: it mows, it reports no signal, or it reports that it is outside.",
            ],
        },
        [StepKind.MowerReach] = new("See how far from the wire it runs",
        [
            LampFirst,
            "Start the mower close to the wire. " + WalkBehind,
            "Let it run towards the middle of the widest part.",
            "Where it turns back or stops with no wire near: press stop, mark the spot.",
            "Measure from the spot to the nearest wire.",
            "Note the metres. Covered everything? Note the widest distance, and: at least.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Start the mower beside the wire, at the widest part of the lawn. " + WalkBehind,
                "Watch where it turns back or stops although no edge is near.",
                "Press stop. Measure or pace from there to the nearest wire. One long step is about 0.8 m.",
                "Say the distance. If it mowed everywhere, say so.",
            ],
        },
        [StepKind.FollowWire] = new("Watch it follow the wire home",
        [
            LampFirst,
            "Send the mower home from the far side of the lawn. " + WalkBehind,
            "Stay with it all the way to the station.",
            "Note: steady, wavering, or lost. Remember where.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Press home while the mower is far from its station.",
                WalkBehind,
                "Say how it goes: straight home, swaying, or it loses its way. Remember where.",
            ],
        },
        [StepKind.WireCrossing] = new("See whether it turns at the wire",
        [
            LampFirst,
            "Ask where it was seen crossing. A road, water or a drop beyond the wire there? Do not try it.",
            "Let the mower drive straight at the wire there. No place known? Try beside metal, then away from it.",
            WalkBehind + " Goes over? Press stop at once.",
            "Note: respected when it turns, crossed when it goes over. Note the place and whether metal is near.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Is there a road, water or a drop beyond the wire? Then do not try it there: tell us.",
                "Let the mower drive towards its edge, where it crossed before. " + WalkBehind,
                "Does it turn at the wire, or go over it? When it goes over, press stop at once.",
                "Say where you saw it, and whether a fence, shed or other metal is within a step.",
            ],
        },
        [StepKind.LoopResistance] = new("Measure the loop",
        [
            "Unplug the station. Take both ends of the loop off and clean them bright.",
            "Touch the probes together: note that as the leads' ohms.",
            "Meter on its lowest ohms range. One probe on each wire end, fingers off the metal.",
            "Over-range? Go up range by range: it counts only on the highest.",
            "Wait until it settles. Note the ohms, or over-range, and the meter's accuracy.",
            EndsBack,
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet. Never put the probes into an outlet.",
                "Find the two thin wires that come out of the ground and sit on two clamps at the station. A third thin wire stays where it is.",
                "Remember which sat where: take a photo. Then take both off. If that needs a tool, leave it to us.",
                "Wipe the two ends until the metal shines.",
                "Meter: black lead into COM, red lead where Ω is written. Turn it to Ω, the smallest range, often called 200.",
                "Hold the two metal tips together: that is the first number, less than 2. OL or 1 already now? Then check leads and dial again.",
                "Now one tip on each wire end, whichever way round. Fingers off the metal. Wait until it stands still: that is the second number.",
                "Only OL, or only a 1? Turn to the next larger Ω range, and the next, until a number stands there. Mind a k or M beside it.",
                "Put the ends back where they were, then the plug.",
            ],
        },
        [StepKind.EarthResistance] = new("Measure the loop to earth",
        [
            EndsOff + " Keep them off the ground.",
            Stake,
            "Meter on its highest ohms range: one probe on an end of the loop, one on the stake.",
            "Swap the probes and read again. If the two differ, the ground makes a voltage of its own: take the mean.",
            "Note the ohms, or over-range.",
            EndsBack,
        ]),
        [StepKind.Insulation] = new("Test the loop's insulation",
        [
            EndsOff,
            "Join the loop's two ends to each other. Carry the mower away from the station, blades away from you.",
            "People and animals off the lawn. Check once more: nothing but wire is connected.",
            "A guide wire joins the loop in the ground: its end carries the test voltage too. Lay it where nobody and nothing touches it.",
            Stake + " Tester between wire and stake.",
            "Set the tester to 250 V, unless your workshop has set a lower voltage. Hold the test for a minute.",
            "Note the volts and the megohms.",
            "Discharge the wire with the tester before you touch it.",
            "Part the ends. " + EndsBack,
        ]),
        [StepKind.EarthRatio] = new("Find the place by its voltage ratio to earth",
        [
            EndsOff,
            Stake,
            "Meter on DC volts, smallest range above the battery's voltage; black lead on the stake.",
            "Connect a dry battery, or one with a fuse or series resistor, across A and B. Read A to stake, then B to stake, with their signs.",
            "Turn the battery round at once and read both again, with their signs. Take the battery off.",
            "Enter all four with their signs: the form takes half the difference of each pair, so that a stray voltage cancels.",
            EndsBack,
        ]),
        [StepKind.EndCapacitance] = new("Find an open circuit by its capacitance",
        [
            EndsOff + " Keep them off the ground.",
            Stake,
            "Zero the capacitance meter with its leads open, where they will lie.",
            "Measure from end A to the stake, then from end B to the stake, with the same leads in the same place.",
            "Note both in nanofarads.",
            EndsBack,
        ]),
        [StepKind.SplitResistance] = new("Open the loop and measure both sides",
        [
            EndsOff,
            "Uncover the joint by hand, with a blunt tool.",
            ProveWire,
            "Open the joint. Clean both sides bright.",
            "Measure each side to its own end at the station, through the long test lead. Note the lead's ohms.",
            "Note the ohms of side A and of side B; over-range counts too.",
            "Remake it with a new gel joint. Measure the loop from its ends, then cover the joint.",
            EndsBack,
        ])
        {
            HowInPlainWire =
            [
                EndsOff,
                "Uncover a hand's length of wire by hand, with a blunt tool.",
                ProveWire,
                "Cut it and strip both sides back to bright metal.",
                "Measure each side to its own end at the station, through the long test lead. Note the lead's ohms.",
                "Note the ohms of side A and of side B; over-range counts too.",
                "Join with a new gel joint. Measure the loop from its ends, note the joint on the plan, then cover it.",
                EndsBack,
            ],
        },
        [StepKind.Bypass] = new("Bypass a stretch",
        [
            EndsOff,
            "Uncover the wire at both places by hand, with a blunt tool.",
            ProveWire,
            "Use joints where there are any; pierce the wire where there are none. Clip the bypass wire on, laid on the grass.",
            "Measure the loop with the bypass in place. Note the ohms, or over-range.",
            "Take the bypass off. Seal every place that was pierced or opened, and measure the loop before you cover it.",
            EndsBack,
        ]),
        [StepKind.ToneTrace] = new("Listen for the tone",
        [
            EndsOff,
            "Tone generator between the end named (A or B) and a stake; the other end stays free.",
            "Listen at the place named, a hand above the wire. Compare with the first metres at the end that is fed.",
            "Note the end that was fed, and the tone: strong, weak or none.",
            "Take the tone generator off. " + EndsBack,
        ]),
        [StepKind.Reflection] = new("Measure the echo",
        [
            EndsOff,
            "Reflectometer on the end named (A or B), its other lead to a stake. The other end free.",
            "Find the first clear step of the trace. Up: an open circuit. Down: a short circuit.",
            "Note the end, the delay there and back in nanoseconds, and the kind.",
            EndsBack,
        ]),
        [StepKind.Look] = new("Walk the stretch and look",
        [
            "Mower off and key out before you walk its line.",
            "Walk the stretch named, slowly, eyes on the wire's line.",
            "Look for fresh digging, edging, spikes, bare or chewed wire, roots, burrows, opened joints.",
            "Pull at nothing. Note: damage and where, or nothing.",
        ])
        {
            HowForOwner =
            [
                "Switch the mower off and take out its key.",
                "Walk slowly where we said, along the wire.",
                "Look for fresh holes, a spade's cut, new edging or pegs, bare or chewed wire.",
                "Do not pull or dig. Take a photo of what you find. Say: damage and where, or nothing.",
            ],
        },
        [StepKind.SubstituteLoop] = new("Try a short test loop",
        [
            EndsOff,
            "Lay the test loop on level grass, 3 m across or more, without a crossing. Connect it the same way round.",
            "Plug in. Lamp dark or in alarm? Do not start the mower.",
            "Carry the mower into the test loop, blades away from you. Step back behind it, start it.",
            "Note: runs, or no signal.",
            "Unplug. Take the test loop off. " + EndsBack,
        ]),
        [StepKind.SubstituteMower] = new("Try another mower",
        [
            LampFirst,
            "Take a mower known to be good, of the same system, paired to this station.",
            "Carry it, blades away from you, to where the other one failed. Step back behind it, start it.",
            "Note: runs, or no signal.",
        ]),
        [StepKind.NeighbourOff] = new("Have the neighbour's station off for a while",
        [
            LampFirst,
            "Ask the neighbour to stop their mower and unplug its station.",
            "Start your mower where it fails and watch for five minutes. " + WalkBehind,
            "Note: cured, or the same. Have the neighbour plug in again.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Ask the neighbour to stop their mower and unplug its station for a quarter of an hour.",
                "Start your mower where it goes wrong. " + WalkBehind + " Watch for five minutes.",
                "Say: it is cured, or it is the same. Let the neighbour plug in again.",
            ],
        },
        [StepKind.MowerCheck] = new("See whether the mower runs",
        [
            "Plug the station in. Lamp dark or in alarm? Do not start the mower: note that it is the same.",
            "Carry the mower to the middle of the lawn, blades away from you. Step back behind it, start it.",
            "Watch it for five minutes, over the places where it failed before. " + WalkBehind,
            "Note: runs, or the same as before.",
        ])
        {
            HowForOwner =
            [
                "Plug the station in and look at its lamp. Dark, or an alarm? Do not start the mower: say that it is the same.",
                "Start the mower in the middle of the lawn, then let it go where it failed before.",
                WalkBehind + " Watch for five minutes.",
                "Say: it runs, or it is the same.",
            ],
        },
        [StepKind.AcRatio] = new("Find the place by a tone's voltage ratio to earth",
        [
            EndsOff,
            Stake,
            "Tone generator across A and B, at 1 kHz or less.",
            "Meter on AC volts, lowest range. Its manual must promise readings at that frequency.",
            "Measure from A to the stake, then from B to the stake, with the same leads in the same place.",
            "Tone off: what the meter still shows is hum from the mains. A tenth of the readings or more? Then they count for nothing.",
            "Note both voltages and the frequency. Take the tone generator off.",
            EndsBack,
        ]),
        [StepKind.GuideResistance] = new("Measure the guide wire",
        [
            "Unplug the station. Take all wire ends off it, a guide wire's too, and clean them bright.",
            "Touch the probes together: note that as the leads' ohms.",
            "Lowest ohms range: one probe on the guide wire, the other on A, then on B. Fingers off the metal.",
            "Over-range? Go up range by range: it counts only on the highest.",
            "Note both readings, and which guide wire it was.",
            "The guide wire back on its own terminal. " + EndsBack,
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet. Never put the probes into an outlet.",
                "At the station, find the two ends of the loop and the third thin wire: that is the guide wire.",
                "Take a photo of what sat where. Then take all three off. If that needs a tool, leave it to us.",
                "Wipe the three ends until the metal shines.",
                "Meter: black lead into COM, red lead where Ω is written. Turn it to Ω, the smallest range, often called 200.",
                "Hold the two metal tips together: that is the first number.",
                "One tip on the guide wire, the other on loop end A. Not marked? The left one in your photo is A. Wait: the second number.",
                "The first tip stays, the other goes on loop end B: the third number. Only OL or 1? Try the larger Ω ranges first.",
                "Put all three back where they were, then the plug.",
            ],
        },
        [StepKind.JointDrop] = new("Measure the voltage across a joint",
        [
            EndsOff,
            "Uncover the joint by hand, with a blunt tool.",
            ProveWire,
            "Meter on current, highest range first, in line with a dry battery, or one with a fuse or resistor, to A and B: note the milliamps.",
            "Battery off. Red lead back in V. Battery across A and B alone; needles a finger's width either side of the joint: note the millivolts.",
            "Take the battery off. Seal both pricks with gel or sealing tape. Measure the loop, then cover the joint.",
            EndsBack,
        ]),
        [StepKind.PinProbe] = new("Pierce the wire and measure both ways",
        [
            EndsOff,
            "Uncover a hand's length of wire by hand, with a blunt tool.",
            ProveWire,
            "Push the needle through the insulation, away from your fingers.",
            "Measure from the needle to end A at the station, through the long test lead, then to end B. Note the lead's ohms.",
            "Keep the needle still: a bad prick reads like a fault. Note both readings; over-range counts too.",
            "Needle out. Seal the prick with gel or sealing tape, note its place, measure the loop, then cover the wire.",
            EndsBack,
        ]),
        [StepKind.EarthGradient] = new("Follow the earth fault with two stakes",
        [
            EndsOff + " Keep them off the ground.",
            "Plus of a dry battery, or one with a fuse, on end A, minus on a stake 10 m or more from the wire. End B stays free.",
            "Push two stakes a finger deep, a hand beside the wire so that they do not pierce it: one towards A, one towards B of the place.",
            "Meter on DC volts, lowest range, red on the stake towards B. Battery on, read, battery off, read: only the change counts.",
            "Plus: the earth fault is ahead, towards B. Minus: behind, towards A. Where the sign turns, it is here. No change: nothing.",
            "Note that, the microvolts, and how far apart the stakes were.",
            "Take battery and stakes away.",
            EndsBack,
        ]),
        [StepKind.TerminalLook] = new("Pull both ends and look at them",
        [
            "Unplug the station. Photograph the ends where they sit, then take both off.",
            "Look at ends and terminals: bright or green, dry or wet. Tug gently: does spring or screw still hold?",
            "Note: sound, loose or corroded.",
            EndsBack,
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet.",
                "Find the two thin wires that come out of the ground and sit on two clamps at the station. A third thin wire stays where it is.",
                "Take a photo of what sat where. Then take both off. If that needs a tool, leave it to us.",
                "Look: does the metal shine? Is it green, black or wet? Did one sit loose?",
                "Put the ends back where they were, then the plug.",
                "Say what you saw. A photo helps.",
            ],
        },
        [StepKind.Wiggle] = new("Move the joint and watch the meter",
        [
            EndsOff,
            "At a joint: uncover it by hand, with a blunt tool. At a terminal there is nothing to dig.",
            "Clip the meter onto the loop's two ends, on its lowest ohms range.",
            "Meter in view, or someone beside it. Bend the wire gently either side of the joint. Pull at nothing.",
            "Note: steady, or jumps. More than half an ohm up and down, again and again, is a jump.",
            "Take the meter off. Cover the joint.",
            EndsBack,
        ]),
        [StepKind.ChargeCheck] = new("See whether the mower charges",
        [
            "Check that the station has power: its lamp is on.",
            "Mower switched off, gloves on. Set it on the station by hand, blades away from you, until the contacts touch. Switch it on, hands off.",
            "Watch its display and lamp for two minutes. It may start by itself: stay behind it, within reach of the stop button.",
            "Note: charges, or does not.",
        ])
        {
            HowForOwner =
            [
                "Look whether the station's lamp is on.",
                "Switch the mower off. With gloves on, set it on the station until its contacts touch. Then switch it on and step back behind it.",
                "It may start by itself: nobody near it. Watch its display or lamp for two minutes.",
                "Say: it charges, or it does not.",
            ],
        },
        [StepKind.RestoreMains] = new("Bring the mains back",
        [
            "Dry hands, cover on. Smells burnt, or wet? Stop: it is an electrician's work.",
            "Look at the switchboard: has a breaker or the residual-current device tripped?",
            "Unplug the station's power supply, then switch on once.",
            "Trips again with the station unplugged: leave it off; it is an electrician's work.",
            "Holds: plug the supply in. Trips now: the supply is faulty; leave it unplugged.",
        ])
        {
            HowForOwner =
            [
                "Take the station's plug out.",
                "Dry hands. Does the fuse box smell burnt, or is it wet? Then do not touch it: call an electrician.",
                "Look in your fuse box for a switch that has dropped. Switch it on once.",
                "If it drops again, leave it off and call an electrician.",
                "If it holds, put the station's plug back. If it drops now, take the plug out and tell us.",
            ],
        },
        [StepKind.ReplaceSupply] = new("Replace the power supply",
        [
            "Unplug the old supply from the outlet, then from the station.",
            "New one: the same kind, safety-isolated, made for outdoors. Compare the labels.",
            "Same voltage, AC or DC as before, same polarity, at least the same current.",
            "Plug it into the station, then into the outlet. Look at the lamp.",
        ]),
        [StepKind.ReplaceStation] = new("Replace the station",
        [
            "Unplug the power supply. Take all wire ends off and mark them A, B and guide.",
            "Change the station as a whole; never open it.",
            "Wire ends on: A to A, B to B, guide to guide. Plug in. Pair the mower.",
        ]),
        [StepKind.RemakeTerminals] = new("Remake the terminals",
        [
            EndsOff,
            "Cut each end back to bright metal. Put on new terminals, crimped and sealed.",
            "Measure the loop from the new terminals. Note the ohms.",
            "Did the mower report that it is outside? Then swap the two ends.",
            "Ends on, plug in, look at the lamp.",
        ]),
        [StepKind.RemakeJoint] = new("Remake the joint",
        [
            EndsOff,
            "Uncover the joint by hand, with a blunt tool.",
            ProveWire,
            "Cut the old joint out, back to bright metal on both sides.",
            "Make a new gel joint, with slack so that nothing pulls on it.",
            "Measure the loop before you cover the joint. " + EndsBack,
        ]),
        [StepKind.MendSpan] = new("Dig up and mend the stretch",
        [
            EndsOff,
            "Mark both ends of the stretch. Uncover the wire by hand, with a blunt tool.",
            ProveWire,
            "Look at every centimetre: cuts, green or black copper, thin places.",
            "Replace the stretch with new wire of the same kind, a gel joint at each end, with slack.",
            "Measure the loop before you cover it. Note the new joints on the plan and what you found.",
            EndsBack,
        ]),
        [StepKind.RenewLoop] = new("Lay a new loop",
        [
            EndsOff,
            "Lay new wire along the plan, in one piece where you can. Keep the depth even.",
            "Measure the loop before you cover it. Note length, joints and the reading.",
            "Ends on the terminals the same way round as before. Plug in.",
            "Take the old wire out, or note that it lies there. Before you cut any of it: prove that it is the old loop.",
        ]),
        [StepKind.RelayLayout] = new("Lay the loop another way",
        [
            "Draw the new path first and check its signal margin: no point of the lawn too far from the wire.",
            EndsOff,
            "Lay the new wire; runs to an island side by side, all other runs well apart. Before you cut old wire, prove that it is the loop.",
            "Measure the loop before you cover it. Enter the new path and joints in the plan.",
            "Ends on, plug in. Lamp normal? Start the mower and watch it over the places that it did not reach before. Walk behind it.",
        ]),
        [StepKind.RecodeStation] = new("Give the station another code",
        [
            "Ask which code the neighbour's station uses.",
            "Mower off, key out. Set this station to another code, with its own buttons.",
            "Pair the mower again. Watch it beside the neighbour's wire. " + WalkBehind,
        ]),
        [StepKind.ServiceReceiver] = new("Service the mower's receiver",
        [
            "Mower off, key and battery out, on the bench, gloves on, blades guarded.",
            "Look at sensors, their plugs and cables. Clean, reseat, replace.",
            .. ServiceFinish,
        ]),
        [StepKind.ServiceDrive] = new("Service the mower's drive",
        [
            "Mower off, key and battery out, on the bench, gloves on, blades guarded.",
            "Look at wheels, motors, gearboxes and their cables. Clean, replace what drags or slips.",
            .. ServiceFinish,
        ]),
        [StepKind.SwapEnds] = new("Swap the two wire ends",
        [
            "Unplug the station. Photograph both wire ends on their terminals.",
            "Take both off and put each on the other's terminal. A guide wire stays where it is.",
            "Plug in and look at the lamp. Note on the plan that A and B changed places.",
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet.",
                "Find the two thin wires that come out of the ground and sit on two clamps at the station. A third thin wire stays where it is.",
                "Take a photo. Then put each of the two on the other's clamp. If that needs a tool, leave it to us.",
                "Put the plug back and wait until the lamp is steady.",
            ],
        },
        [StepKind.CleanContacts] = new("Clean the charging contacts",
        [
            "Unplug the station. Mower off, key out, gloves on.",
            "Rub the contacts of mower and station bright, with a glass-fibre pen or fine abrasive paper. No oil.",
            "Bent springs: back into shape. Burnt or broken contacts: replace them.",
            "Plug in. Set the mower on the station by hand, blades away from you; key in, hands off. See whether it charges.",
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet. Switch the mower off and take out its key.",
                "Rub the metal contacts of mower and station with a dry, rough cloth until they shine. No oil, no water.",
                "Keep your hands away from its underside. Burnt or broken contacts: leave them to us.",
                "Put the plug back. Set the mower on the station by hand, key in, hands off. Say whether it charges.",
            ],
        },
        [StepKind.ReplaceBattery] = new("Replace the mower's battery",
        [
            "Mower off, key out, on the bench, gloves on, blades guarded.",
            "Battery swollen, hot or leaking? Do not open or charge it. Put it outdoors, away from all that burns.",
            "Old one out as the maker's manual shows. New one: the maker's own type. Compare the labels.",
            "Seals and covers back before the key goes in. Charge it on the station and stay with it for ten minutes.",
            "Hand the old battery in where your local rules say.",
        ]),
        [StepKind.AskMaker] = new("Ask the maker",
        [
            "Have ready: what fails and when, every reading, type and number of station and mower.",
            "Call the maker's service. Ask for known faults of this type, and for their visit if a call does not do.",
            "What they tell you to do, do within the cautions above. Open nothing that has mains inside.",
            "Note what they found and what was done.",
        ])
        {
            HowForOwner =
            [
                "Find type and number of mower and station on their labels. Switch the mower off first, and do not turn it over.",
                "Call the maker's service. Tell them what you told us.",
                "Open nothing, whatever they say: leave that to us or to them.",
                "Tell us what they said or did.",
            ],
        },
    };
}
