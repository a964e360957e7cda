import type { Numbers } from "../format";

/** For those who measure sites and answer for what the pages say: frames, rules, settings, verdicts. */
export function learnStaff({ n }: { readonly n: Numbers }) {
  return {
    title: "How a fit is decided",
    lead: "For those who measure the sites and stand behind the answers: what is recorded, what is asked of a place, what each setting changes, and what an answer proves. The page for guests tells the same in fewer words.",

    framesTitle: "Two frames",
    frames: [
      "Everything on a site is recorded in one frame, everything on a rig in another. A place on the site is then a shift and a direction, and nothing else.",
    ],
    siteFrameTitle: "The frame of a site",
    siteFrame: [
      "The origin is the middle of the pad’s entry edge, the edge the rig comes in over. x runs into the site along the line rigs are meant to stand along: the centerline of a straight [[pad]], on a curved one the chord the surveyor chooses. y runs to the left of someone who stands on the road and looks in. z runs up from the pad.",
      "The edge of the road is a line of its own, since roads are seldom square to a pad. A [[pull-through]] may have a second one at its far end; where none is recorded, nothing limits that end.",
      "Heights of obstacles, hookups and parts are above the ground where they stand. A drain down a bank carries the height of its own ground.",
      "The ground is one plane: two slopes, or the best plane through three or more spot heights. The worst misfit of a spot is handed out with each answer. A crowned or dished pad shows there, and nowhere else.",
    ],
    rigFrameTitle: "The frame of a rig",
    rigFrame: [
      "u runs forward from the rear wall of the [[body]], v to the left of the centerline (the [[road-side]]), w up from the ground. The [[hitch]] lies ahead of the body.",
      "A part is anything that opens: a [[slide]], an [[awning]], a door with steps, a bed, a [[ramp]]. It has a side, a span along that side, a depth out from it, and two heights. A part that must open decides the verdict; one that is nice to have never does.",
    ],
    headingsTitle: "Backed in or driven in",
    headings: [
      "The rig stands along x, in one of two headings: [[tail-in]], its front to the road, or [[nose-in]]. Trailers on a [[back-in]] stand tail-in; motorized rigs may do either. On a pull-through all come in nose-in, and tail-in as well where the site may be entered from both ends. Each heading that is allowed is searched.",
    ],

    hardTitle: "What has to hold at a place",
    hard: [
      "Each of these is a slack: what there is, less what is asked for. It holds at zero and above. The least of them at a place is its room.",
    ],
    columns: { constraint: "Constraint", meaning: "Its slack", setting: "Setting", needs: "What is asked", rule: "Rule", met: "Met where", verdict: "Verdict", when: "When" },
    constraints: [
      { id: "stand", means: "How far the tire or jack that lies worst is inside the pad, less half its own size.", settings: ["footing"] },
      { id: "road", means: "How far the corner that lies worst, of body, hitch, a hitched vehicle and the parts that must open, is on the site’s side of the road edge. The same at the far edge of a pull-through, where one is recorded. Named road:part for a part that is only nice to have.", settings: ["roadSetback"] },
      { id: "lot:part", means: "How far body, hitch or part lie inside the [[lot]], seen from above. Only where a lot is recorded.", settings: [] },
      { id: "clear:part:obstacle", means: "How far the two are apart, seen from above, less the gap that is kept. Only where their heights meet. A tree counts once: trunk or [[crown]], whichever leaves less.", settings: ["clearance", "wireClearance", "fireClearance"] },
      { id: "clear:supports:obstacle", means: "How far the nearest tire or jack is from what rises out of the ground: a body may pass over a low rock, a tire may not. A [[wheel-stop]] is let off.", settings: ["clearance"] },
      { id: "clear:body:hookup", means: "How far a hookup lies outside the body, since nobody can get at one underneath. Where it has a post that reaches the body, the post’s gap as well. One without a post may lie under a slide, an awning or the hitch.", settings: ["clearance"] },
    ],
    heightsTitle: "When heights meet",
    heights: [
      "Two things can only touch in plan where their heights meet: the top of the part, plus the lift that [[leveling]] may add, plus the room above, is over the obstacle’s underside; and the part’s underside, less the room below, is under the obstacle’s top. Reaching exactly is not meeting.",
      "The room above is larger under crowns, which sag and grow, and under wires. For an awning, a [[fire-ring]] reaches up without end.",
    ],

    needsTitle: "What else is asked",
    needsLead: "For each service that is wanted, one inlet and one hookup have to pass all of these together.",
    needs: [
      { id: "reach:power, reach:water", means: "Drop at the rig, path on the ground, climb at the hookup, all within the cord or hose. Beyond the longest run allowed it fails, whoever owns the hose. Where a service may not run under the rig, the path goes around the body.", settings: ["longest.power", "longest.water", "underBody"] },
      { id: "reach:sewer", means: "The straight length from outlet to drain rim, both above the ground where they stand.", settings: ["longest.sewer"] },
      { id: "fall:sewer", means: "The outlet lies above the rim, ground included, by at least 1 in 48 of the path. Nothing one could bring puts it right.", settings: [] },
      { id: "power", means: "A [[receptacle]] takes the plug, straight or through one [[adapter]], and the [[load|loads]] that must run stay within what may be drawn for hours. The other loads run in listed order as far as that goes.", settings: ["continuous"] },
      { id: "level:side, level:along", means: "Beyond the slope that is let pass, the lift is slope times spread: across the tires; lengthwise across the wheelbase of a motorized rig, and from axle to front jack on a trailer. The guest’s own lift counts in full.", settings: ["levelWithin", "maxLiftSide", "maxLiftAlong"] },
      { id: "vehicle", means: `A vehicle that stays takes a [[stall]] it fits, or stands in line ${n.measured(300)} clear of the rig, or goes to [[overflow-parking]] where there is some.`, settings: ["overflow"] },
    ],
    water: "A tap whose pressure is above the limit asks for a [[regulator]]; one whose pressure was never taken counts as within it. A [[rinse-tap]] never counts as a water hookup.",
    powerTitle: "What a supply gives",
    powerColumns: { supply: "Plug in receptacle", legs: "Lines", gives: "Gives", hours: "For hours" },
    powerRow: (amperes: number) => `${amperes} A`,
    powerNote: "Through an adapter the smaller of the two counts, with its lines. At 120 volts a line.",

    rulesTitle: "Rules",
    rulesLead: "Met or not wherever the rig stands. A rule that a site leaves out is met.",
    rules: [
      { id: "rule:maxLength", means: "Body and hitch together are no longer." },
      { id: "rule:maxGuests", means: "Adults and children are no more." },
      { id: "rule:maxVehicles", means: "A motorized rig counts one, a tow vehicle or towed car that comes along one, a trailer none." },
      { id: "rule:pets", means: "Pets are allowed, or none comes." },
      { id: "rule:tents", means: "Tents are no more." },
      { id: "rule:accessible", means: "A guest who needs an [[accessible-site]] gets only those; where the park keeps them, nobody else does." },
    ],

    policyTitle: "The park’s settings",
    policyLead: "What this park has, and where it differs from what holds without a setting, that as well. Every number above that is not measured is a setting of the park. Local code decides where it asks for more. What is marked as taken from memory should be checked against the code that is in force.",
    policyColumns: { setting: "Setting", standard: "Where a park says nothing:", here: "In this park", record: (value: string) => `on record: ${value}` },
    policyValue: {
      yes: "yes",
      no: "no",
      none: "none",
      under: (length: string) => `less than ${length}`,
      percent: (value: number) => `${value} %`,
    },
    services: { power: "power", water: "water", sewer: "sewer" } as Record<string, string>,

    verdictsTitle: "Verdicts",
    verdicts: {
      fits: "A place was found where all of it holds with what the guest owns.",
      gear: "None like that, but one with a longer cord or hose, an adapter, a regulator or more lift, within the settings. The answer lists what to bring.",
      ask: "A number nobody knows decides it. The answer names the measurement, and the value at which the verdict turns. Where it would be the same either way, nothing is asked.",
      no: "No place does. The answer carries the proof, and with it the smallest changes that would turn it.",
      unsettled: "The search used up its budget with the question open. It claims nothing.",
    },
    order: [
      "Sites stand in that order; within one verdict, more room, shorter runs, own gear, less lift, more loads, more parts out and wishes met come first, and then the site’s name.",
      "The place given is the one with the most room, up to the comfort the park sets, and among those the one with the shortest runs. Parts that are nice to have are then put out as far as they go.",
      "Nobody measures a site closer than the setting touch. A shortfall that small is let pass, where nothing better is found.",
    ],

    proofTitle: "What an answer proves",
    proof: [
      "The search covers every place, not a sample. It cuts the ground into cells and knows for each the most room any place in it could have. A cell that cannot hold is dropped whole; when none is left, the answer is no.",
      "“Best” are two numbers for the hard constraints alone: some place has at least so much room, and no place has more than the bound. They lie within a few millimeters of each other. Below zero only their sign counts.",
      "“Limit” is the tightest constraint at the place given, with the two points the gap lies between: the red line on the plan. “Tight” marks a place with less room than the setting of that name.",
    ],
    conflictTitle: "Reading a conflict",
    conflict: [
      "A no comes with a conflict: a short list of constraints that cannot all hold, while any one of them dropped leaves the others possible. Read it as: these, together, are what stands in the way.",
      "A single tree is never a conflict alone, since the rig could stand elsewhere. Only with what keeps it there: the pad, the road, the lot, or a cord that has to reach.",
      "So each line of it is a way out. Move the pedestal or lengthen the pad, and this conflict is gone. Another may then show.",
      "What would turn the answer is worked out apart: the smallest change of each kind, to the site or to what the guest brings, each tried by solving the site anew.",
    ],
    conflictExample: { constraints: ["stand", "clear:body:ped"], means: "The tires and jacks have to be on the pad, and the body clear of the pedestal. Each can be had; both cannot." },

    undecidedTitle: "What is not decided",
    undecided: [
      "Whether the rig gets around the loop. From the road in front of the site, a way in is looked for where the approach was measured; that none was found is no proof, and you have to look.",
      "What was not measured, or has changed since. A limb that sagged is not in the record.",
      "A rig that stands askew. It stands along x.",
      "Ground that is not a plane. Its misfit is told, not used.",
      "Shapes finer than boxes: a fifth wheel’s raised nose counts down to its floor.",
      "Whether an installation is safe or lawful. Codes, utilities and licensed people decide that.",
    ],
  };
}
