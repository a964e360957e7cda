import { inletAt } from "@/lib/rig";
import type { Site } from "@/lib/park";
import { applyChange, type Case } from "./changes";
import { place } from "../frames";
import type { Change, FitResult, Remedy, Service } from "../types";

/** What remedies need of the engine: whether a case has any pose at all, and its whole answer. */
export interface Judge {
  possible(it: Case): boolean;
  answer(it: Case): FitResult;
}

/** Amounts are settled to this, upward, mm: nobody cuts or pours closer. */
const GRAIN = 10;
/** No park lengthens a pad, or moves a thing, further than this without starting anew, mm. */
const MOST = { lengthen: 6000, widen: 3000, move: 5000 } as const;
/** Directions a thing may be carried off in. */
const DIRECTIONS = 16;
/** A new hookup is set this far out from the inlet it serves, mm: beside the rig, not under it. */
const BESIDE = 900;

/**
 * What would turn a `no`: for each kind of change the smallest that does it, found by halving and solved anew, easiest
 * first. Where no single change does it, the easiest pair.
 */
export function remediesFor(it: Case, refused: FitResult, judge: Judge): Remedy[] {
  const families = familiesFor(it, refused, judge);
  const singles = families.flatMap((family) => {
    const change = smallest(family, it, judge);
    return change ? [[change]] : [];
  });
  if (singles.length > 0) return solvedAnew(singles, it, judge);
  const pair = easiestPair(withWhatTheyLeave(families, it, judge), it, judge, refused);
  return pair ? solvedAnew([pair], it, judge) : [];
}

/** One kind of change to one thing: by amounts from nothing to the most, in one or more ways (directions, say). */
interface Family {
  readonly ease: number;
  readonly most: number;
  readonly ways: readonly ((amount: number) => Change)[];
}

/** The least amount at which some way does it, to the grain; null where not even the most does. */
function smallest({ most, ways }: Family, it: Case, judge: Judge): Change | null {
  const doing = (amount: number, among: Family["ways"]) => among.filter((way) => judge.possible(applyChange(way(amount), it)));
  let left = doing(most, ways);
  if (left.length === 0) return null;
  let low = 0, high = most;
  while (high - low > GRAIN) {
    const middle = low + GRAIN * Math.ceil((high - low) / 2 / GRAIN);
    if (middle >= high) break;
    const still = doing(middle, left);
    if (still.length === 0) low = middle;
    else { high = middle; left = still; }
  }
  return left[0]!(high);
}

/** What a first change leaves standing may be something that no conflict named before it. */
function withWhatTheyLeave(families: readonly Family[], it: Case, judge: Judge): Family[] {
  const all = [...families];
  for (const { most, ways } of families) {
    const first = ways[0] && applyChange(ways[0](most), it);
    if (first) all.push(...familiesFor(first, judge.answer(first), judge));
  }
  return distinct(all).slice(0, MOST_FAMILIES);
}

/** Beyond so many kinds of change the easiest pair is not looked for among the rest. */
const MOST_FAMILIES = 30;

function easiestPair(families: readonly Family[], it: Case, judge: Judge, refused: FitResult): Change[] | null {
  // Rules, slopes and services that nothing could give each ask for a change of their own.
  if (refused.conflicts.filter((c) => c.constraints.length === 1 && /^(rule|level|reach|power)/.test(c.constraints[0]!)).length > 2) return null;
  const pairs = families.flatMap((a, i) => families.slice(i + 1).map((b) => ({ a, b, ease: a.ease + b.ease })));
  for (const { a, b } of pairs.sort((p, q) => p.ease - q.ease)) {
    for (const way of b.ways) {
      const first = smallest(a, applyChange(way(b.most), it), judge);
      const second = first && smallest(b, applyChange(first, it), judge);
      if (first && second) return [first, second];
    }
  }
  return null;
}

/** Each solved anew as a whole; what does not hold then is left out. */
function solvedAnew(sets: readonly (readonly Change[])[], it: Case, judge: Judge): Remedy[] {
  return sets.flatMap((changes): Remedy[] => {
    const { verdict, bring } = judge.answer(changes.reduce((at, change) => applyChange(change, at), it));
    return verdict === "fits" || verdict === "gear" ? [{ changes, verdict, bring }] : [];
  });
}

/** Every way that touches something the conflicts name, easiest first. */
function familiesFor(it: Case, refused: FitResult, judge: Judge): Family[] {
  const ids = [...new Set(refused.conflicts.flatMap((c) => c.constraints))];
  return distinct(ids.flatMap((id) => familiesOf(id, it, judge)));
}

function distinct(families: readonly Family[]): Family[] {
  const known = new Set<string>();
  return families
    .filter(({ most, ways }) => {
      const key = JSON.stringify(ways[0]?.(most));
      return key !== undefined && !known.has(key) && known.add(key);
    })
    .sort((a, b) => a.ease - b.ease);
}

function familiesOf(id: string, it: Case, judge: Judge): Family[] {
  const [kind, part = "", ...rest] = id.split(":");
  const other = rest.join(":");
  switch (kind) {
    case "rule": return ofRule(id, it);
    case "level": return [lift(part === "side" ? "side" : "along", it), whole(7, { code: "level" })];
    case "vehicle": return [whole(1, { code: "park-elsewhere" }), ...ofHeading(it), ...pad()];
    case "stand": return [...ofHeading(it), ...pad()];
    case "road": return [...ofPart(part, it), ...pad()];
    case "lot": return ofPart(part, it);
    case "clear": return [...ofPart(part, it), ...ofBarrier(other, it)];
    case "reach": return [...ofService(part as Service, it, judge), run(part as Service, it)];
    case "fall": return ofService("sewer", it, judge);
    case "power": return [whole(2, { code: "do-without", what: "power" }), ...it.site.hookups.filter((h) => h.kind === "power").flatMap((h) => receptacles(h.id, it))];
    default: return [];
  }
}

/** Nobody's leave makes a site accessible; and one that is kept for those who need it is not to be had for the asking. */
function ofRule(id: string, { rig }: Case): Family[] {
  if (id === "rule:accessible") return [];
  const elsewhere = id === "rule:maxVehicles" && rig.tow !== undefined ? [whole(1, { code: "park-elsewhere" })] : [];
  return [...elsewhere, whole(3, { code: "waive", what: id })];
}

/** A run longer than the park allows: by its leave, up to half as much again. */
function run(what: Service, { policy }: Case): Family {
  const longest = policy.longest[what];
  return { ease: 4, most: longest / 2, ways: [(amount) => ({ code: "allow-run", what, amount: longest + amount })] };
}

/** More blocks than the park allows: by its leave, up to half as much again. */
function lift(what: "side" | "along", { policy }: Case): Family {
  const most = what === "side" ? policy.maxLiftSide : policy.maxLiftAlong;
  return { ease: 4, most: most / 2, ways: [(amount) => ({ code: "allow-lift", what, amount: most + amount })] };
}

function ofHeading({ site }: Case): Family[] {
  return site.entry === "pull-through" && site.enterFrom !== "either" ? [whole(2, { code: "enter-from-either" })] : [];
}

function whole(ease: number, change: Change): Family {
  return { ease, most: 0, ways: [() => change] };
}

function pad(): Family[] {
  return [
    { ease: 5, most: MOST.lengthen, ways: [(amount) => ({ code: "lengthen", amount })] },
    { ease: 5, most: MOST.widen, ways: [(amount) => ({ code: "widen-left", amount })] },
    { ease: 5, most: MOST.widen, ways: [(amount) => ({ code: "widen-right", amount })] },
  ];
}

function ofPart(part: string, it: Case): Family[] {
  const { rig } = it, out: Family[] = [];
  if (rig.parts.some((p) => p.id === part && p.need === "must" && p.kind !== "entry")) out.push(whole(1, { code: "leave-in", what: part }));
  if (rig.tow?.stays === "hitched") out.push(whole(1, { code: "park-elsewhere" }));
  return [...out, ...ofHeading(it)];
}

/** Only what the survey marks as removable is carried off; a tree that stays may lose limbs. A wire is the utility's to move. */
function ofBarrier(id: string, { site, rig, policy }: Case): Family[] {
  if (site.hookups.some((h) => h.id === id)) return [carried(id, 6)];
  const obstacle = site.obstacles.find((o) => o.id === id);
  if (!obstacle || obstacle.kind === "wire") return [];
  const off = !obstacle.removable ? [] : obstacle.kind === "tree" ? [whole(8, { code: "remove", what: id })] : [whole(2, { code: "remove", what: id }), carried(id, 2)];
  return [...off, ...(obstacle.kind === "tree" ? limbs(obstacle, enoughUnder({ rig, policy })) : [])];
}

/** The height under limbs that clears the rig whatever it is lifted by, mm. */
export function enoughUnder({ rig, policy }: Pick<Case, "rig" | "policy">): number {
  return rig.body.height + policy.limbRoom + policy.maxLiftSide + policy.maxLiftAlong;
}

/** Limbs taken off from where they begin up to the height that clears the rig whatever it is lifted by. */
function limbs(tree: Site["obstacles"][number], enough: number): Family[] {
  const begins = tree.crownFrom ?? 0;
  return begins >= enough ? [] : [{ ease: 3, most: enough - begins, ways: [(amount) => ({ code: "trim", what: tree.id, amount: begins + amount })] }];
}

function carried(what: string, ease: number): Family {
  const ways = Array.from({ length: DIRECTIONS }, (_, k) => {
    const turn = (2 * Math.PI * k) / DIRECTIONS, cos = Math.cos(turn), sin = Math.sin(turn);
    return (amount: number): Change => ({ code: "move", what, amount, by: [Math.round(amount * cos), Math.round(amount * sin)] });
  });
  return { ease, most: MOST.move, ways };
}

/** Receptacles of the plug's own size or more: what the loads ask for may be more than the plug's size gives through less. */
function receptacles(hookup: string, { rig }: Case): Family[] {
  const plug = rig.electric?.plug ?? 0;
  return [50, 30, 20, 15].filter((amps) => amps >= plug).map((amount) => whole(4, { code: "add-receptacle", what: hookup, amount }));
}

/** A hookup that is there is moved; one that is not is set beside the inlet, where the rig would stand without the service. */
function ofService(service: Service, it: Case, judge: Judge): Family[] {
  const { site, rig } = it;
  const without = whole(2, { code: "do-without", what: service });
  const here = site.hookups.filter((h) => h.kind === service);
  if (here.length > 0) return [without, ...here.map((h) => carried(h.id, 6))];
  const inlet = rig.inlets.find((i) => i.kind === service);
  const { pose } = judge.answer({ ...it, rig: { ...rig, wants: rig.wants.filter((w) => w !== service) } });
  if (!inlet || !pose) return [without];
  const [u, v] = inletAt(rig, inlet);
  const out = { left: [0, BESIDE], right: [0, -BESIDE], rear: [-BESIDE, 0], front: [BESIDE, 0] }[inlet.side] as [number, number];
  const [x, y] = place(pose, u + out[0], v + out[1]);
  const grain = (value: number) => GRAIN * Math.round(value / GRAIN);
  return [without, whole(6, { code: "add-hookup", what: service, at: [grain(x), grain(y)] })];
}
