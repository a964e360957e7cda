import type { Policy } from "@/lib/fit";
import { wishReasons } from "@/lib/fit/notes";
import type { FitResult, Service } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { boundsOf } from "@/lib/plane";
import type { Rig } from "@/lib/rig";
import { bringSentence, catalogueOf, numbersFor, placeInWords } from "@/lib/wording";
import type { Entry } from "./filters";
import type { Loop } from "./loops";

/** What can be said of one site for one rig, each as lines of text. */
export const factNames = ["verdict", "short", "room", "bring", "power", "water", "sewer", "leveling", "staysIn", "runs", "vehicle", "hookups", "shade", "entry", "pad", "loop", "rules"] as const;
export type FactName = (typeof factNames)[number];

export interface FactContext {
  readonly rig: Rig;
  readonly policy: Policy;
  readonly units: Units;
  readonly loops: readonly Loop[];
}

/** What setting up on a site takes: told where a place was found. */
export const setUpFacts = ["room", "power", "water", "sewer", "leveling", "staysIn", "runs", "vehicle"] as const satisfies readonly FactName[];

/** Room is aimed for up to the park's comfort and settled to 5 mm: from here on it is plenty, mm. */
export const ROOM_SETTLED = 10;

export function factOf(name: FactName, { site, result }: Entry, context: FactContext): string[] {
  const { guestSites: { compare: words, site: siteWords, loop }, verdicts } = catalogueOf();
  const { rig, policy, units, loops } = context, n = numbersFor(units);
  switch (name) {
    case "verdict": return [verdicts[result.verdict].label];
    case "short": return [placeInWords(site, rig, result, policy.comfort, units)];
    case "room": return result.pose && result.room !== null ? [roomWords(result.room, policy.comfort, n.spare)] : [words.noPlace];
    case "bring": return result.pose ? orNothing(result.bring.map((item) => bringSentence(item, rig, units))) : [words.noPlace];
    case "power": case "water": case "sewer": return [runWords(name, result, rig, units)];
    case "leveling": return levelWords(result, n.lacking);
    case "staysIn": return result.pose ? staysInWords(result, rig) : [words.noPlace];
    case "runs": return powerWords(result, rig);
    case "vehicle": return [vehicleWords(result)];
    case "hookups": return hookupWords(site);
    case "shade": return [words.shade(wishReasons(site, ["shade"])[0]?.short === null)];
    case "entry": return [siteWords.entry[site.entry]];
    case "pad": return padWords(site, n.measured);
    case "loop": {
      const its = loops.find(({ id }) => id === site.loop);
      return its ? [loop(its.id, its.name), ...(its.character ? [its.character] : [])] : [words.nothing];
    }
    case "rules": return limitsOf(site, units);
  }
}

/** What the park lets stand on a site, as short lines. */
export function limitsOf({ rules }: Site, units: Units): string[] {
  const { guestSites: { site: words, compare } } = catalogueOf();
  const lines = [
    ...(rules?.maxLength === undefined ? [] : [words.maxLength(numbersFor(units).spare(rules.maxLength))]),
    ...(rules?.maxGuests === undefined ? [] : [words.maxGuests(rules.maxGuests)]),
    ...(rules?.maxVehicles === undefined ? [] : [words.maxVehicles(rules.maxVehicles)]),
    ...(rules?.pets === undefined ? [] : [words.pets(rules.pets)]),
    ...(rules?.tents === undefined ? [] : [words.tents(rules.tents)]),
    ...(rules?.accessible ? [words.accessible] : []),
  ];
  return lines.length > 0 ? lines : [compare.noLimits];
}

function roomWords(room: number, comfort: number, spare: (mm: number) => string): string {
  const { plentyOf } = catalogueOf().guestSites.compare;
  return room >= comfort - ROOM_SETTLED ? plentyOf(spare(comfort)) : spare(Math.max(0, room));
}

function runWords(service: Service, { needs, pose }: FitResult, rig: Rig, units: Units): string {
  const { compare: words } = catalogueOf().guestSites, n = numbersFor(units);
  if (!rig.wants.includes(service)) return words.notWanted;
  if (!pose) return words.noPlace;
  const need = needs.find((it) => it.service === service);
  return !need || need.route === null ? words.noHookup : words.run(n.lacking(need.route), need.extra > 0 ? n.spare(need.own) : null, need.underBody);
}

function levelWords({ pose, level: { side, along } }: FitResult, lacking: (mm: number) => string): string[] {
  const { compare: words } = catalogueOf().guestSites;
  if (!pose) return [words.noPlace];
  return side === 0 && along === 0 ? [words.level] : [...(side > 0 ? [words.side(lacking(side))] : []), ...(along > 0 ? [words.along(lacking(along))] : [])];
}

function staysInWords({ leftIn }: FitResult, rig: Rig): string[] {
  const { guestSites: { compare: words }, things } = catalogueOf();
  return leftIn.length === 0 ? [words.allOut] : rig.parts.filter((p) => leftIn.includes(p.id)).map((part) => words.named(things.label({ type: "part", part })));
}

function powerWords({ power, pose }: FitResult, rig: Rig): string[] {
  const { guestSites: { compare: words }, things } = catalogueOf();
  if (!rig.wants.includes("power")) return [words.notWanted];
  if (!pose) return [words.noPlace];
  if (!power) return [words.noHookup];
  const named = (ids: readonly string[]) => ids.map((id) => things.load(id));
  return [words.receptacle(power.receptacle, power.through), ...(power.runs.length > 0 ? [words.runsAll(named(power.runs))] : []), ...(power.shed.length > 0 ? [words.sheds(named(power.shed))] : [])];
}

function vehicleWords({ vehicle, pose }: FitResult): string {
  const { compare: words } = catalogueOf().guestSites;
  if (vehicle === null) return pose ? words.noVehicle : words.noPlace;
  return Object.hasOwn(words.vehicles, vehicle) ? words.vehicles[vehicle as keyof typeof words.vehicles] : words.stall;
}

function hookupWords({ hookups }: Site): string[] {
  const { compare: words } = catalogueOf().guestSites;
  const lines = hookups.map((h) => (h.kind === "power" ? words.hookups.power([...(h.receptacles ?? [])].sort((a, b) => a - b)) : words.hookups[h.kind]));
  return lines.length > 0 ? [...new Set(lines)].map(words.named) : [words.noHookups];
}

function padWords({ pad }: Site, measured: (mm: number) => string): string[] {
  const { guestSites: { compare: words, site } } = catalogueOf();
  const { minX, maxX, minY, maxY } = boundsOf(pad.outline);
  return [words.padSize(measured(maxX - minX), measured(maxY - minY)), ...(pad.surface ? [site.surface(pad.surface)] : [])];
}

function orNothing(lines: readonly string[]): string[] {
  return lines.length > 0 ? [...lines] : [catalogueOf().guestSites.compare.nothing];
}
