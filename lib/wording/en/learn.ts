import type { Policy } from "@/lib/fit/policy";
import type { Numbers } from "../format";
import { drawingWords } from "./learn-drawings";
import { learnStaff } from "./learn-staff";
import { learnWords } from "./learn-words";

/** What the pages that explain draw on: the reader's numbers and the park's own settings. */
export interface Taught {
  readonly n: Numbers;
  readonly policy: Policy;
}

/** A run of cord that comes out even in either system: drop, path and climb, mm. */
const exampleRun = { drop: 762, path: 5486.4, climb: 914.4 };
/** What is common on a 30 A plug, amperes. The label on a guest's own decides. */
const exampleLoads = { air: 13, coffee: 9, microwave: 13 } as const;
/** A sewer run to tell the fall of, mm. */
const SEWER_RUN = 6096;
/** 1/48, as the engine has it: a quarter of an inch in a foot. */
const FALL = 1 / 48;
/** A usual width over which to tell a slope, mm. */
const USUAL_WIDTH = 2438.4;

/**
 * The pages that explain. Words in double brackets are terms of the trade and become links to the page of words:
 * [[pad]], or [[pad|pads]] where the term reads otherwise.
 */
export const learn = {
  nav: { label: "How it works", guest: "How it works", staff: "How a fit is decided", words: "Words of the trade", onPage: "On this page", back: "Check a rig" },
  guest,
  staff: learnStaff,
  words: learnWords,
  drawings: drawingWords,
  exampleRun,
  exampleLoads,
};

/** For a guest before a first trip, on a phone. Held to grade 8 by a test. */
function guest({ n, policy }: Taught) {
  const metric = n.units === "metric";
  const share = Math.round(policy.continuous * 100);
  const length = (mm: number) => n.measured(mm);
  const run = exampleRun.drop + exampleRun.path + exampleRun.climb;
  return {
    title: "How it works",
    lead: [
      "Your rig has a size. So has each site. Padwright lays one on the other and looks at what meets what.",
      "This page shows what it looks at, how to read the plan, and how to measure your rig. Words with a line under them lead to what they mean.",
    ],

    checksTitle: "What is checked",
    checks: [
      { id: "stands", title: "Where it stands", lines: [
        "A long site can still be too small. What counts is what stands on it and next to it.",
        "So each spot on the [[pad]] is looked at, not just a few. The best one has the most room on all sides. Then it has short hoses.",
        "A trailer is backed onto a [[back-in]]. On a [[pull-through]] you drive in, and out the far end when you leave.",
      ] },
      { id: "above", title: "Trees, limbs and wires", lines: [
        "A tree is a trunk and its limbs. A low rig can pass under limbs that would stop a tall one.",
        "Your height counts with all that is on the roof. What the blocks lift you by is added.",
        `At least ${length(policy.limbRoom)} stays free below limbs, since they sag and grow. Over and under all else, ${length(policy.headroom)} stays free.`,
        `Below wires, ${length(policy.wireRoom)} stays free, and next to them ${length(policy.wireClearance)}. Local code may ask for more.`,
      ] },
      { id: "opens", title: "Slides, awning and steps", lines: [
        "Your rig must have room when it is open. Each [[slide]], the [[awning]], and the door with its steps get their own space.",
        `A gap of ${length(policy.clearance)} stays free to posts, trunks and rocks. An awning stays ${length(policy.fireClearance)} from a [[fire-ring]].`,
        "You say what must open and what would be nice. If there is no room for a nice one, the answer says that it stays in.",
      ] },
      { id: "ground", title: "Wheels, jacks and the road", lines: [
        `All tires and [[jack|jacks]] stand on the pad. Their middles are ${length(policy.footing)} or more inside its edge.`,
        "Nothing may stick out over the road. Nothing may reach past the edge of your site.",
        "A low rock may lie under the floor, but not under a tire. A [[wheel-stop]] may touch the tires. That is what it is for.",
      ] },
      { id: "runs", title: "Cord and hoses", lines: [
        "A cord does not fly through the air. It drops from the rig to the ground. It runs along the ground. Then it climbs the post. You need all three: drop, path and climb.",
        `In the drawing that makes ${length(exampleRun.drop)} + ${length(exampleRun.path)} + ${length(exampleRun.climb)} = ${n.lacking(run)} of cord.`,
        policy.underBody.length > 0 ? "The path may run under the rig, as is often done. The answer says when it does." : "The path goes around the rig, as this park asks.",
        `The park sets how long a run may be: ${n.spare(policy.longest.power)} for the cord, ${n.spare(policy.longest.water)} for the water hose and ${n.spare(policy.longest.sewer)} for the [[sewer-hose]].`,
      ] },
      { id: "sewer", title: "The sewer hose runs downhill", lines: [
        `Waste only flows down. The hose has to drop ${metric ? "2.1 cm for each meter" : "1/4 inch for each foot"} it runs. A run of ${length(SEWER_RUN)} has to drop ${n.lacking(SEWER_RUN * FALL)}.`,
        "A longer hose will not help if the [[sewer-drain|drain]] lies too high. Then the answer is no, unless you can do without a sewer hookup.",
      ] },
      { id: "power", title: "Power, and what can run at once", lines: [
        "Your plug must suit the [[pedestal]]. If it does not, one [[dogbone-adapter|adapter]] may help. Never use two in a row.",
        `For hours on end you can use ${share} % of what the plug gives: ${Math.round(30 * policy.continuous * 10) / 10} A of 30 A.`,
        `So not all can run at once. ${exampleLoads.air + exampleLoads.coffee <= 30 * policy.continuous ? "In the drawing, the air conditioner and the coffee maker can. Add the microwave, and it is too much." : "In the drawing, what lies past the red line is too much."}`,
        "Those are common numbers. The label on yours is the one that counts.",
      ] },
      { id: "water", title: "Water", lines: [
        "Only a tap for drinking water counts. A [[rinse-tap]] is for tanks. Never drink from it.",
        `If the pressure is above ${n.pressure(policy.maxPressure)}, you need a [[regulator]]. It goes on the tap, before the hose.`,
      ] },
      { id: "level", title: "Level ground and blocks", lines: [
        `Few pads are flat. A slope of up to ${policy.levelWithin} % needs no blocks. That is about ${length((policy.levelWithin / 100) * USUAL_WIDTH)} across a rig.`,
        "On more slope, the low wheels go up on [[leveling-blocks|blocks]]. On a trailer, the [[tongue-jack]] then sets the front.",
        `You may be told to bring more lift: up to ${n.spare(policy.maxLiftSide)} side to side, and ${n.spare(policy.maxLiftAlong)} front to back. Past that, the answer is no.`,
      ] },
      { id: "vehicle", title: "Your truck or car", lines: [
        "It can stand in a [[stall]], in line with the rig, or stay hitched.",
        policy.overflow ? "If there is no place on the site, it goes to [[overflow-parking]]. The answer says so." : "If there is no place for it on the site, the answer is no.",
      ] },
      { id: "rules", title: "The park’s rules", lines: [
        "How long a rig may be, with its [[hitch]]. How many guests, cars and tents. If pets may come.",
        policy.keepAccessible ? "An [[accessible-site]] is kept for a guest who needs one." : "If you need an [[accessible-site]], you are shown only those.",
      ] },
    ],

    planTitle: "How to read the plan",
    plan: {
      lines: (site: string, park: string, rig: string) => [
        `Here is a real plan. It shows site ${site} at ${park}, a park we made up, with this rig on it: ${rig}. It was found the way yours will be.`,
        "You look down from above. The road is at the bottom. All is drawn to scale.",
      ],
      callOuts: {
        rig: "Your rig: the thick outline. The arrow points to its front.",
        wheels: "Black bars are tires. Small squares are jacks.",
        slide: "A thin outline is a part that opens, like this slide. Dashes mean that it has to stay in.",
        awning: "Stripes are the awning, rolled out.",
        gap: "The red line is the tightest gap. Watch this one as you park.",
        tree: "A tree. The dot is the trunk. The wavy ring is how far the limbs reach. The number is how high up they start.",
        power: "A black square is power. Long dashes are your cord.",
        water: "A black drop is the water tap. Dots are your hose. A drop with a line through it is rinse water: not to drink.",
        sewer: "A ring is the drain. The double line is your sewer hose.",
        pad: "The pad: firm ground. All wheels and jacks stay on it.",
        stall: "A box of dashes is a place for a car.",
        lot: "Dash and dot: the edge of your site.",
        road: "The road you come in by.",
        scale: "The scale bar: how long so many feet or meters are on the plan.",
        north: "This arrow points north.",
      },
      after: "Below each plan you can open the plan in words. It tells the same, so that you can have it read to you.",
    },

    answersTitle: "What the answers mean",
    answersLead: "Each answer has its own mark.",
    answers: {
      fits: { means: "There is at least one spot where all that was checked holds, with what you own.", not: "It does not say that the way in is easy. It does not say that nothing has changed since the site was measured." },
      gear: { means: "There is a spot if you bring what is listed: a longer hose, an adapter, more blocks.", not: "It does not say that the park has these to lend. Have them with you when you come." },
      ask: { means: "Someone has to measure one more thing. It may be yes or no, and that number decides. The answer says what to measure, and where it turns.", not: "It is not a yes. Measure it, or ask the park to, and look again." },
      no: { means: "There is no spot. Every one was looked at, not just some. The answer names what is in the way, and the least change that would help.", not: "It does not say that the rig or the site is bad. If one of your numbers was wrong, change it and look again. Put one thing right, and the next may show." },
      unsettled: { means: "The search came to its limit. This is not a yes, and not a no.", not: "Do not go by it. Ask the park." },
    },
    tight: `Tight means that less than ${n.lacking(policy.tight)} is left on top of the gap that is always kept. It fits, but go slow and have a helper.`,
    untoldTitle: "What no answer tells you",
    untold: [
      "The road to the site. Sharp turns, gates and limbs before it are not checked. The turn in from the road in front is, where it was measured.",
      "What nobody measured. A limb that came down last night is in no list.",
      "A rig that stands at a slant. It is taken to stand in line with the pad.",
      "If the site is free, and what it costs.",
      "If a socket, a tap or a drain works and is safe.",
    ],

    tapeTitle: "Where to hold the tape",
    tapeLead: [
      "Park on flat ground. Take a helper and a tape. Do each one twice.",
      "If in doubt, write down a bit more for the rig, and a bit less for cord, hoses and blocks.",
    ],
    tape: [
      { id: "tape-length", title: "Length and hitch", lines: ["Length: from the tip of the [[coupler]] to the last thing at the rear. Count the bumper, the ladder and the spare tire.", "Hitch: from the tip of the coupler to the front wall. A [[motorhome]] has none."] },
      { id: "tape-height", title: "Height", lines: ["From the ground to the top of the tallest thing on the roof. That is often the air conditioner.", "Lay a straight board on it. Keep the board level. Measure down from its end. Have the ladder held."] },
      { id: "tape-width", title: "Width", lines: ["From wall to wall at the widest place, with all that stays out. Do not count mirrors that fold."] },
      { id: "tape-slide", title: "Slides and awning", lines: ["Put them out first. Measure how far each comes out from the wall.", "Then from the rear wall to where it starts, and to where it ends.", "For the height, measure its lowest and its highest edge from the ground."] },
      { id: "tape-wheels", title: "Wheels and jacks", lines: ["From the rear wall to the middle of each wheel and each jack.", "Then from left to right, from middle to middle."] },
      { id: "tape-inlets", title: "Where cord and hoses plug in", lines: ["From the rear wall to each [[inlet]] and to the [[sewer-outlet]].", "Then from the ground up to it."] },
      { id: "tape-cord", title: "How long cord and hoses are", lines: ["Lay each one out straight on the ground. Measure it from end to end. What the bag says may be off."] },
      { id: "tape-blocks", title: "Blocks", lines: ["Stack them as you will use them. Measure the height a wheel would stand on."] },
    ],

    cautionsTitle: "Before you move, before you plug in",
    cautions: [
      { id: "backing", title: "Backing in", lines: [
        "Walk the site first. Look down, and look up: limbs, wires, the edge of a roof.",
        "Have a [[spotter]]. Agree on signs. Keep the spotter in your mirror.",
        "If you cannot see the spotter, stop. Do not slow down: stop.",
        "The rear of a long rig swings out as you turn. That is [[tail-swing]]. Watch it too.",
      ] },
      { id: "jacks", title: "Blocks and jacks", lines: [
        "Level side to side first, while you are still hitched. Then put a [[chock]] on both sides of the wheels. Only then unhitch.",
        "Jacks need firm ground. A [[stabilizer]] steadies the rig. It is not made to lift it.",
        "Never get under a rig that stands on a jack. Stay within what the maker allows.",
      ] },
      { id: "electric", title: "Plugging in", lines: [
        "Turn the [[breaker]] off before you plug in. Turn it off before you pull the plug.",
        "Look at the socket and the plug. Burned or bent? Do not use it. Tell the park.",
        "Stay far from wires overhead. That goes for poles and for you on a ladder.",
      ] },
      { id: "drinking", title: "Filling with water", lines: [
        "Fill only from the drinking tap. Never use the rinse tap for it.",
        "Use a [[drinking-water-hose]], and use it for that alone.",
      ] },
      { id: "waste", title: "Emptying the tanks", lines: [
        "Shut both [[valve|valves]] before you touch the hose. Put gloves on.",
        "Empty the [[black-tank]] first, then the [[gray-tank]]. Then wash your hands.",
      ] },
      { id: "gas", title: "Gas and fire", lines: [
        "Do with gas as the manual of your rig says.",
        "If you smell gas, get all people out and away, and call for help from there.",
        "Keep flames and hot exhaust far from awnings and tents.",
      ] },
    ],
    who: "Local codes, the manual of your rig and trained people come first. This page does not stand in for them. Padwright gives advice. The person on the ground decides.",
  };
}
