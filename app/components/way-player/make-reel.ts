import type { FilmedBody, Moment, Nearest, TrainBox } from "@/lib/access";
import type { WayShown } from "@/lib/card/way";
import type { Site } from "@/lib/park";
import type { Numbers } from "@/lib/wording";
import { wayIn as words, type Seeing } from "@/lib/wording/en/way-in";
import type { PageFrame } from "../plan/frame";
import { nameOnWay } from "./name-on-way";
import type { Reel, ReelBody, ReelLeg } from "./reel";

/** A tire to scale, mm; data knows where it stands, not its size. */
const TIRE = { long: 700, wide: 240 } as const;
/** The wheel counts as straight within so many degrees, and as far turned from so many. */
const STRAIGHT = 2, FAR = 20;
/** Bends within so many degrees are in line. */
const IN_LINE = 1;
/** Stepping never goes further than this at once, mm. */
const STEP = 3000;

/** A way as a browser is given it, with the words for every moment. */
export function makeReel(site: Site, shown: WayShown, { toPage, scale }: PageFrame, n: Numbers): Reel {
  const { film, spotting, legs } = shown;
  return {
    bodies: film.bodies.map((body) => bodyOnPage(body, scale)),
    posts: spotting.posts.map(({ leg, at }) => ({ leg, at: onPage(toPage(at)) })),
    legs: film.legs.map((moments, i): ReelLeg => {
      const { kind, length } = legs[i]!, last = moments.length - 1;
      return {
        kind, name: words.legs[kind], length: Math.round(length),
        rows: moments.map(({ along, steer, poses }) => [Math.round(along), round(-steer), ...poses.flatMap(({ at, heading }) => [...onPage(toPage(at)), round(-heading)])]),
        near: moments.map(({ nearest: { from, to } }) => [...onPage(toPage(from)), ...onPage(toPage(to))]),
        helpers: moments.map(({ helper }) => helper && [helper.post, ...(helper.seen ? onPage(toPage(helper.seen.eye)) : [])]),
        said: moments.map((moment, k) => sayMoment(site, shown, i, moment, k === 0, k === last, n)),
        far: moments.map(({ along }) => words.far(along < 1 ? "0" : n.measured(roughly(along, n)), n.measured(roughly(length, n)))),
        stations: stationsOf(moments, shown.tightest.leg === i ? shown.tightest.along : null),
        end: words.legEnd[kind],
      };
    }),
  };
}

/** What is said at a moment: what to do, how the rig stands, what comes nearest, and whether the helper is seen. */
function sayMoment(site: Site, shown: WayShown, leg: number, { steer, hitches, nearest, helper }: Moment, first: boolean, last: boolean, n: Numbers): string {
  const { kind } = shown.legs[leg]!, bend = hitches[0] === undefined ? null : Math.abs(hitches[0]);
  const said = words.moment({
    backs: kind === "back", wheel: Math.abs(steer) <= STRAIGHT ? "straight" : steer > 0 ? "left" : "right", far: Math.abs(steer) >= FAR,
    bend: bend === null ? null : bend <= IN_LINE ? 0 : Math.round(bend), drawn: isTowed(shown.film.bodies) ? "car" : "trailer",
    ...nearInWords(nearest, site, n),
  });
  const helps = helper ? words.helper(helper.post + 1, helper.seen && seeing(shown, helper.seen.view)) : shown.spotting.unseen.length > 0 || shown.spotting.posts.length === 0 ? words.noHelper : null;
  if (last) return words.legEnd[kind];
  return [first ? (kind === "out" ? words.beginOut : words.begin(shown.from)) : said, helps].filter((line) => line !== null).join(" ");
}

/** The two that come nearest to each other, and how near. */
export function nearInWords({ part, other, gap, room }: Nearest, site: Site, n: Numbers): { part: string; other: string; gap: string | null; short: string | null } {
  return { part: words.parts[part], other: nameOnWay(other, site), gap: gap === null ? null : n.spare(gap), short: gap === null ? n.lacking(-room) : null };
}

/** A mirror by its side: whoever sits on the left looks into the left one for what is near. */
function seeing({ from, sight }: WayShown, view: "window" | "near-mirror" | "far-mirror"): Seeing {
  if (view === "window") return "window";
  const driver = sight === "sight" ? from : from === "left" ? "right" : "left", other = driver === "left" ? "right" : "left";
  return `${view === "near-mirror" ? driver : other}-mirror`;
}

/** How far a rig has rolled is told to the foot or half meter. */
function roughly(mm: number, { units }: Numbers): number {
  const step = units === "metric" ? 500 : 304.8;
  return Math.round(mm / step) * step;
}

function isTowed(bodies: readonly FilmedBody[]): boolean {
  return bodies.some(({ boxes }) => boxes.some(({ part }) => part === "tow"));
}

/** The ends, where the wheel comes to be turned another way, the tightest place, and so many between that no step is longer than `STEP`. */
function stationsOf(moments: readonly Moment[], tightest: number | null): number[] {
  const turned = ({ steer }: Moment) => (Math.abs(steer) <= STRAIGHT ? 0 : Math.sign(steer));
  const marked = moments.flatMap(({ along }, i) => (i === 0 || i === moments.length - 1 || turned(moments[i]!) !== turned(moments[i - 1]!) || (tightest !== null && Math.abs(along - tightest) < 1) ? [i] : []));
  return marked.flatMap((from, k) => {
    const to = marked[k + 1];
    if (to === undefined) return [from];
    const parts = Math.ceil((moments[to]!.along - moments[from]!.along) / STEP);
    return [...new Set([from, ...Array.from({ length: parts - 1 }, (_, j) => from + Math.round(((to - from) * (j + 1)) / parts))])];
  });
}

function bodyOnPage({ boxes, wheels, hitch }: FilmedBody, scale: number): ReelBody {
  const nose = Math.max(...boxes.map(({ u1 }) => u1)), wide = Math.max(...boxes.map(({ halfWidth }) => halfWidth));
  const inside = (v: number) => Math.sign(v) * Math.min(Math.abs(v), wide - TIRE.wide / 2);
  return {
    boxes: boxes.map(({ part, u0, u1, halfWidth }: Pick<TrainBox, "part" | "u0" | "u1" | "halfWidth">) => ({ part, box: [round(-halfWidth * scale), round(-u1 * scale), round(2 * halfWidth * scale), round((u1 - u0) * scale)] as const })),
    wheels: wheels.map(({ at: [u, v], steered }) => ({ at: [round(-inside(v) * scale), round(-u * scale)] as const, steered })),
    drawbar: hitch !== null && hitch > nose ? [round(-nose * scale), round(-hitch * scale)] : null,
    tire: [round(TIRE.long * scale), round(TIRE.wide * scale)],
  };
}

function onPage([x, y]: readonly [number, number]): readonly [number, number] {
  return [round(x), round(y)];
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
