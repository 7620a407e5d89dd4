using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>Steps and cautions in English.</summary>
internal static class EnglishSteps
{
    private static readonly Dictionary<Caution, string> Cautions = new()
    {
        [Caution.NoThunder] = "Thunder about, or coming? Stop. Measure nothing and touch no wire until it has passed.",
        [Caution.MainsStayClosed] =
            "Never open outlet, plug, power supply or station: mains is inside. If one is wet or damaged, keep your hands off and call an electrician.",
        [Caution.StationUnplugged] = "Unplug the station before you touch the wire. Both wire ends are off the station before you measure.",
        [Caution.AllDisconnectedForTestVoltage] =
            "The tester's voltage destroys electronics and bites: loop, station and mower all disconnected first, nobody at the wire, discharge it afterwards.",
        [Caution.NoLiveElectricFence] = "Electric fence near the wire or the stake? Have it switched off first. Never connect anything while it is live.",
        [Caution.ExtraLowVoltageOnly] = "Drive the loop from a battery of 12 V or less, or from the sender's own. Never from a charger or anything on the mains.",
        [Caution.LocateServices] =
            "Before you dig, cut or drive in a stake: have buried cables and pipes located, as your local rules ask. Leave work on them to licensed people.",
        [Caution.MowerIsolated] = "Mower off, and its key or battery out, before hands or feet come near it. The blades are sharp even when they stand still.",
        [Caution.ClearOfRunningMower] = "Children, animals and feet stay clear of a running mower. Press stop before you go near it or lift it.",
    };

    private static readonly string[] CheckAtMidLawn =
    [
        "Plug the station in. Wait until its lamp is steady.",
        "Set the mower down in the middle of the lawn and start it.",
        "Watch it for five minutes, over the places where it failed before.",
        "Note: runs, or the same as before.",
    ];

    private static readonly string[] ServiceFinish =
    [
        "Put guards and covers back before key or battery goes in.",
        "Try it on a short test loop before it goes back to its lawn.",
    ];

    private static readonly string[] PutBack =
    [
        "Put the wire ends back on the terminals they came from.",
    ];

    /// <summary>The wording.</summary>
    public static StepTexts Make() => new("en", Steps(), Cautions);

    private static Dictionary<StepKind, StepText> Steps() => new()
    {
        [StepKind.OutletCheck] = new("Try the outlet",
        [
            "Unplug the station's supply.",
            "Plug another appliance, known to work, into the same outlet.",
            "Note: live when it runs, dead when it does not.",
        ])
        {
            HowForOwner =
            [
                "Take the station's plug out of its outlet.",
                "Plug in something that surely works, such as a lamp.",
                "Does it work? Then the outlet is live. If not, it is dead.",
                "Put the station's plug back.",
            ],
        },
        [StepKind.SupplyVoltage] = new("Measure the power supply",
        [
            "Pull the supply's low-voltage plug off the station. Leave the mains side alone.",
            "Read the nominal voltage on its label.",
            "Set the meter to the kind of voltage on the label, range above it.",
            "Measure at the low-voltage plug.",
            "Asked for loaded? Plug back on the station, measure at its contacts with fine probes that cannot touch each other.",
            "Note the volts, the nominal volts, and whether the station drew from it.",
        ]),
        [StepKind.StationLamp] = new("Look at the station's lamp",
        [
            "Look at the lamp for half a minute. Shade it from the sun.",
            "Note: off, normal, flicker or alarm. Use the workshop's list for what this model's colours mean.",
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
            "Carry the mower, switched off, to the place named: close to the wire, or in the middle of the lawn.",
            "Set it on the grass, step back, start it.",
            "Note: runs, reports no signal, or believes itself outside.",
        ])
        {
            HowForOwner =
            [
                "Switch the mower off. Carry it to the place we named: beside the wire, or in the middle of the lawn.",
                "Set it down on the grass, step back, start it.",
                "Say what it does: it mows, it reports no signal, or it says it is outside.",
            ],
        },
        [StepKind.MowerReach] = new("See how far from the wire it runs",
        [
            "Start the mower close to the wire.",
            "Let it run towards the middle of the widest part. Follow at a distance.",
            "Where it turns back or stops with no wire near: press stop, mark the spot.",
            "Measure from the spot to the nearest wire.",
            "Note the metres. Covered everything? Note the widest distance, and: at least.",
        ])
        {
            HowForOwner =
            [
                "Start the mower beside the wire, at the widest part of the lawn.",
                "Watch where it turns back or stops although no edge is near.",
                "Press stop. Measure or pace from there to the nearest wire. One long step is about 0.8 m.",
                "Say the distance. If it mowed everywhere, say so.",
            ],
        },
        [StepKind.FollowWire] = new("Watch it follow the wire home",
        [
            "Send the mower home from the far side of the lawn.",
            "Walk along at a distance, all the way to the station.",
            "Note: steady, wavering, or lost. Remember where.",
        ])
        {
            HowForOwner =
            [
                "Press home while the mower is far from its station.",
                "Walk along at a distance.",
                "Say how it goes: straight home, swaying, or it loses its way. Remember where.",
            ],
        },
        [StepKind.WireCrossing] = new("See whether it minds the wire",
        [
            "Send the mower straight at the wire, at the place where it was seen crossing; else beside metal, then away from it.",
            "Have a thumb on stop.",
            "Note: respected when it turns, crossed when it goes over. Note the place and whether metal is near.",
        ])
        {
            HowForOwner =
            [
                "Let the mower drive towards its edge, where it crossed before. Stand ready to press stop.",
                "Does it turn at the wire, or go over it?",
                "Say where, and whether a fence, shed or other metal is within a step.",
            ],
        },
        [StepKind.LoopResistance] = new("Measure the loop",
        [
            "Unplug the station. Take both wire ends off. Clean them bright.",
            "Touch the probes together: note that as the leads' ohms.",
            "Meter on its lowest ohms range. One probe on each wire end, fingers off the metal.",
            "Over-range? Go up range by range: it counts only on the highest.",
            "Wait until it settles. Note the ohms, or over-range, and the meter's accuracy.",
            .. PutBack,
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet.",
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
            "Unplug the station. Take both wire ends off and keep them off the ground.",
            "Push a short stake a hand deep into moist soil, two metres or more from the wire.",
            "Meter on its highest ohms range: one probe on a wire end, one on the stake.",
            "Swap the probes and read again. If the two differ, the ground makes a voltage of its own: take the mean.",
            "Note the ohms, or over-range.",
            .. PutBack,
        ]),
        [StepKind.Insulation] = new("Test the loop's insulation",
        [
            "Unplug the station. Take both wire ends off it and join them to each other. Take the mower off the station.",
            "Check once more: nothing but wire is connected. Nobody is at the wire.",
            "Push a short stake a hand deep into moist soil. Tester between wire and stake.",
            "Hold the test for a minute. Note the volts and the megohms.",
            "Discharge the wire with the tester before you touch it.",
            "Part the ends. " + PutBack[0],
        ]),
        [StepKind.EarthRatio] = new("Find the place by its earth ratio",
        [
            "Unplug the station. Take both wire ends off. Put the battery across them.",
            "Push a short stake a hand deep into moist soil, two metres or more from the wire.",
            "Meter on its lowest DC range: measure from A to the stake, then from B to the stake.",
            "Turn the battery round and measure both again, signs and all.",
            "For each end: one reading minus the other, halved, without sign. The ground's own voltage drops out. Note both.",
            "Take the battery off. " + PutBack[0],
        ]),
        [StepKind.EndCapacitance] = new("Find a break by its capacitance",
        [
            "Unplug the station. Take both wire ends off and keep them off the ground.",
            "Push a short stake a hand deep into moist soil.",
            "Zero the capacitance meter with its leads open, where they will lie.",
            "Measure from end A to the stake, then from end B to the stake, with the same leads in the same place.",
            "Note both in nanofarads.",
            .. PutBack,
        ]),
        [StepKind.SplitResistance] = new("Open the loop and measure both sides",
        [
            "Unplug the station. Take both wire ends off.",
            "Uncover the joint by hand, with a blunt tool.",
            "Check that it is the loop: the meter shows no voltage on it.",
            "Open the joint. Clean both sides bright.",
            "Measure each side to its own end at the station, through the long test lead. Note the lead's ohms.",
            "Note the ohms of side A and of side B; over-range counts too.",
            "Remake it with a new gel joint. Cover it. " + PutBack[0],
        ])
        {
            HowInPlainWire =
            [
                "Unplug the station. Take both wire ends off.",
                "Uncover a hand's length of wire by hand, with a blunt tool.",
                "Check that it is the loop: no voltage on it, and the tone or the map says so. Then cut.",
                "Strip both sides back to bright metal.",
                "Measure each side to its own end at the station, through the long test lead. Note the lead's ohms.",
                "Note the ohms of side A and of side B; over-range counts too.",
                "Join with a new gel joint. Note its place on the plan. Cover it. " + PutBack[0],
            ],
        },
        [StepKind.Bypass] = new("Bypass a stretch",
        [
            "Unplug the station. Take both wire ends off.",
            "Uncover the wire at both places by hand. Use joints where there are any; pierce the wire where there are none.",
            "Lay the bypass wire on the grass between them and clip it on.",
            "Measure the loop with the bypass in place. Note the ohms, or over-range.",
            "Take the bypass off. Seal every place that was pierced or opened. " + PutBack[0],
        ]),
        [StepKind.ToneTrace] = new("Listen for the tone",
        [
            "Unplug the station. Take both wire ends off.",
            "Sender on the named end and a stake; the other end stays free.",
            "Listen at the place named, a hand above the wire. Compare with the first metres at the station.",
            "Note: strong, weak or none.",
            "Take the sender off. " + PutBack[0],
        ]),
        [StepKind.Reflection] = new("Measure the echo",
        [
            "Unplug the station. Take both wire ends off.",
            "Reflectometer on the named end, its other lead to a stake. Far end free.",
            "Find the first clear step. Up: a break. Down: a short.",
            "Note the delay there and back in nanoseconds, and the kind.",
            .. PutBack,
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
            "Unplug the station. Take both wire ends off.",
            "Lay the test loop on the grass, 3 m across or more, no crossing. Put it on the station, ends the same way round.",
            "Plug in. Set the mower inside the test loop and start it.",
            "Note: runs, or no signal.",
            "Unplug. Take the test loop off. " + PutBack[0],
        ]),
        [StepKind.SubstituteMower] = new("Try another mower",
        [
            "Take a mower known to be good, of the same system, paired to this station.",
            "Set it where the other one failed and start it.",
            "Note: runs, or no signal.",
        ]),
        [StepKind.NeighbourOff] = new("Have the neighbour's station off for a while",
        [
            "Ask the neighbour to unplug the station next door.",
            "Start the mower where it fails and watch for five minutes.",
            "Note: cured, or the same. Have the neighbour plug in again.",
        ])
        {
            HowForOwner =
            [
                "Ask the neighbour to unplug their mower's station for a quarter of an hour.",
                "Start your mower where it goes wrong. Watch for five minutes.",
                "Say: it is cured, or it is the same. Thank the neighbour.",
            ],
        },
        [StepKind.MowerCheck] = new("See whether the mower runs", CheckAtMidLawn)
        {
            HowForOwner =
            [
                "Plug the station in and look at its lamp.",
                "Start the mower in the middle of the lawn, then let it go where it failed before.",
                "Watch for five minutes. Say: it runs, or it is the same.",
            ],
        },
        [StepKind.AcRatio] = new("Find the place by a tone's ratio to earth",
        [
            "Unplug the station. Take both wire ends off. Put the tone sender across them, at 1 kHz or less.",
            "Push a short stake a hand deep into moist soil, two metres or more from the wire.",
            "Meter on its lowest AC range. Its manual must promise readings at that frequency.",
            "Measure from A to the stake, then from B to the stake, with the same leads in the same place.",
            "Sender off: what the meter still shows is hum from the mains. Is it a tenth of the readings or more? Then they count for nothing.",
            "Note both voltages and the frequency.",
            "Take the sender off. " + PutBack[0],
        ]),
        [StepKind.GuideResistance] = new("Measure the guide wire",
        [
            "Unplug the station. Take both wire ends and the guide wire off. Clean all three bright.",
            "Touch the probes together: note that as the leads' ohms.",
            "Lowest ohms range: one probe on the guide wire, the other on A, then on B. Fingers off the metal.",
            "Over-range? Go up range by range: it counts only on the highest.",
            "Note both readings, and which guide wire it was.",
            "The guide wire back on its own terminal. " + PutBack[0],
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet.",
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
            "Unplug the station. Take both wire ends off.",
            "Uncover the joint by hand, with a blunt tool. Check that it is the loop: no voltage on it, and the tone or the map says so.",
            "Battery across the wire ends, meter in line: note the milliamps. A dry battery or one with a fuse, on only while you read.",
            "Meter out of line, battery straight on. Needles into the wire a finger's width either side of the joint: note the millivolts.",
            "Take the battery off. Seal both pricks with gel or sealing tape. Cover the joint. " + PutBack[0],
        ]),
        [StepKind.PinProbe] = new("Pierce the wire and measure both ways",
        [
            "Unplug the station. Take both wire ends off.",
            "Uncover a hand's length of wire by hand, with a blunt tool.",
            "Check that it is the loop: no voltage on it, and the tone or the map says so. Only then push the needle in.",
            "Measure from the needle to end A at the station, through the long test lead, then to end B. Note the lead's ohms.",
            "Keep the needle still: a bad prick reads like a fault. Note both readings; over-range counts too.",
            "Needle out. Seal the prick with gel or sealing tape, note its place, cover it. " + PutBack[0],
        ]),
        [StepKind.EarthGradient] = new("Follow the leak with two stakes",
        [
            "Unplug the station. Take both wire ends off and keep them off the ground.",
            "Plus of the battery on end A, minus on a stake 10 m or more from the wire. End B stays free. A tone will do as well.",
            "A dry battery, or one with a fuse, connected only while you read.",
            "Push two stakes a hand deep into the ground over the wire, in line with it: one towards A, one towards B of the place.",
            "Meter on its lowest DC range between them, red on the stake towards B. Battery on, then off: only the change counts.",
            "Plus: the leak is ahead, towards B. Minus: behind, towards A. Where the sign turns, it is here. No change: nothing.",
            "Note that, the microvolts, and how far apart the stakes were.",
            "Take battery and stakes away. " + PutBack[0],
        ]),
        [StepKind.TerminalLook] = new("Pull both ends and look at them",
        [
            "Unplug the station. Photograph the ends where they sit, then take both off.",
            "Look at ends and terminals: bright or green, dry or wet. Tug gently: does spring or screw still hold?",
            "Note: sound, loose or corroded.",
            .. PutBack,
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
            "Unplug the station. Take both wire ends off and clip the meter onto them, on its lowest ohms range.",
            "At a joint: uncover it by hand, with a blunt tool. Check: no voltage on it.",
            "Meter in view, or someone beside it. Bend the wire gently either side of the joint. Pull at nothing.",
            "Note: steady, or jumps. More than half an ohm up and down, again and again, is a jump.",
            "Take the meter off. Cover the joint. " + PutBack[0],
        ]),
        [StepKind.ChargeCheck] = new("See whether the mower charges",
        [
            "Check that the station has power: its lamp is on.",
            "Mower switched off. Set it on the station by hand until the contacts touch, then switch it on. Hands off.",
            "Watch its display and lamp for two minutes.",
            "Note: charges, or does not.",
        ])
        {
            HowForOwner =
            [
                "Look whether the station's lamp is on.",
                "Switch the mower off. Set it on the station by hand until its contacts touch. Then switch it on and step back.",
                "Watch its display or lamp for two minutes.",
                "Say: it charges, or it does not.",
            ],
        },
        [StepKind.RestoreMains] = new("Bring the mains back",
        [
            "Look at the board: breaker or residual-current switch tripped?",
            "Unplug the station's supply, then switch on once.",
            "Trips again, with the station unplugged: leave it off; it is an electrician's work.",
            "Holds: plug the supply in. Trips now: the supply is the fault; leave it unplugged.",
        ])
        {
            HowForOwner =
            [
                "Take the station's plug out.",
                "Look in your fuse box for a switch that has dropped. Switch it on once.",
                "If it drops again, leave it off and call an electrician.",
                "If it holds, put the station's plug back. If it drops now, take the plug out and tell us.",
            ],
        },
        [StepKind.ReplaceSupply] = new("Replace the power supply",
        [
            "Unplug the old supply from the outlet, then from the station.",
            "New one: same voltage, same polarity, at least the same current, made for outdoors. Compare the labels.",
            "Plug it into the station, then into the outlet. Look at the lamp.",
        ]),
        [StepKind.ReplaceStation] = new("Replace the station",
        [
            "Unplug the supply. Take both wire ends off and mark them A and B.",
            "Change the station as a whole; never open it.",
            "Wire ends on: A to A, B to B. Plug in. Pair the mower.",
        ]),
        [StepKind.RemakeTerminals] = new("Remake the terminals",
        [
            "Unplug the station. Take both wire ends off.",
            "Cut each end back to bright metal. Put on new terminals, crimped and sealed.",
            "See the mower's side: if it believed itself outside, swap the two ends.",
            "Ends on, plug in, look at the lamp.",
        ]),
        [StepKind.RemakeJoint] = new("Remake the joint",
        [
            "Unplug the station. Take both wire ends off.",
            "Uncover the joint by hand, with a blunt tool. Check: no voltage on it.",
            "Cut the old joint out, back to bright metal on both sides.",
            "Make a new gel joint, with slack so that nothing pulls on it. Cover it.",
            "Measure the loop. " + PutBack[0],
        ]),
        [StepKind.MendSpan] = new("Dig up and mend the stretch",
        [
            "Unplug the station. Take both wire ends off.",
            "Mark both ends of the stretch. Uncover the wire by hand, with a blunt tool.",
            "Look at every centimetre: cuts, green or black copper, thin places.",
            "Replace the stretch with new wire of the same kind, a gel joint at each end, with slack.",
            "Measure the loop before you cover it. Note the new joints on the plan and what you found.",
            .. PutBack,
        ]),
        [StepKind.RenewLoop] = new("Lay a new loop",
        [
            "Unplug the station. Take the old wire's ends off.",
            "Lay new wire along the plan, in one piece where you can. Keep the depth even.",
            "Measure the loop before you cover it. Note length, joints and the reading.",
            "Ends on the terminals the same way round as before. Plug in.",
            "Take the old wire out, or cut its ends short and note that it lies there.",
        ]),
        [StepKind.RelayLayout] = new("Lay the loop another way",
        [
            "Draw the new path first and check its reach: no point of the lawn too far from the wire.",
            "Unplug the station. Lay the new wire; runs to an island side by side, all other runs well apart.",
            "Measure the loop before you cover it. Enter the new path and joints in the plan.",
            "Ends on, plug in, watch the mower over the places that were silent.",
        ]),
        [StepKind.RecodeStation] = new("Give the station another code",
        [
            "Ask which code the neighbour's station uses.",
            "Set this station to another one, with its own buttons.",
            "Pair the mower again and watch it beside the neighbour's wire.",
        ]),
        [StepKind.ServiceReceiver] = new("Service the mower's receiver",
        [
            "Mower off, key and battery out, on the bench, blades guarded.",
            "Look at sensors, their plugs and cables. Clean, reseat, replace.",
            .. ServiceFinish,
        ]),
        [StepKind.ServiceDrive] = new("Service the mower's drive",
        [
            "Mower off, key and battery out, on the bench, blades guarded.",
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
            "Unplug the station. Mower off, key out.",
            "Rub the contacts of mower and station bright, with a glass-fibre pen or fine abrasive paper. No oil.",
            "Bent springs: back into shape. Burnt or broken contacts: replace them.",
            "Plug in. Set the mower on the station by hand and see whether it charges.",
        ])
        {
            HowForOwner =
            [
                "Pull the station's plug out of the outlet. Switch the mower off and take out its key.",
                "Rub the metal contacts of mower and station with a dry, rough cloth until they shine. No oil, no water.",
                "Keep your hands away from its underside. Burnt or broken contacts: leave them to us.",
                "Put the plug back. Set the mower on the station by hand. Say whether it charges.",
            ],
        },
        [StepKind.ReplaceBattery] = new("Replace the mower's battery",
        [
            "Mower off, key out, on the bench, blades guarded.",
            "Battery swollen, hot or leaking? Do not open or charge it. Put it outdoors, away from all that burns.",
            "Old one out as the maker's manual shows. New one: the maker's own type. Compare the labels. Never open a battery.",
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
                "Find type and number of mower and station on their labels. Switch the mower off before you touch it.",
                "Call the maker's service. Tell them what you told us.",
                "Open nothing, whatever they say: leave that to us or to them.",
                "Tell us what they said or did.",
            ],
        },
    };
}
