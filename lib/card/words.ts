import type { DrawnLeg } from "@/lib/access";
import type { FitResult, NeedResult } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { isMotorized, type Rig, type RigPart } from "@/lib/rig";
import type { Lendable } from "@/lib/stays";
import { bringSentence, catalogueOf, numbersFor, siteThing } from "@/lib/wording";
import { arrival as words, runNames } from "@/lib/wording/en/arrival";
import type { WayIn, WayShown } from "./way";
import type { Overhead } from "./overhead";
import type { SetUp, Step } from "./set-up";

/** One step in words. */
export interface StepText {
  readonly does: Step["does"];
  readonly title: string;
  readonly lines: readonly string[];
}

/** The whole card in words: what the page shows, the print sheet and the PDF alike. */
export interface CardText {
  readonly title: string;
  /** What has to be known before all else: that no way in was found, or none can be. */
  readonly before: string | null;
  readonly five: readonly { readonly name: string; readonly text: string }[];
  readonly steps: readonly StepText[];
  readonly leaving: readonly string[];
  readonly bring: readonly string[];
  readonly lends: readonly string[];
  readonly way: readonly string[];
}

interface Subject {
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly units: Units;
}

export function cardInWords(subject: Subject, setUp: SetUp, lends: readonly Lendable[], way: WayIn | null): CardText {
  const { site, rig, result, units } = subject, inWords = wayLines(way, subject);
  return {
    title: words.title(site.label ?? site.id),
    before: way && !way.way ? inWords[0]! : null,
    five: fiveLines(subject, setUp),
    steps: setUp.steps.map((step) => ({ does: step.does, ...stepInWords(step, subject) })),
    leaving: setUp.leaving.map((what) => words.leaving[what]),
    bring: result.bring.length > 0 ? result.bring.map((item) => bringSentence(item, rig, units)) : [words.nothingToBring],
    way: inWords,
    lends: lends.filter((item) => item.count > 0 && helps(item, result)).map(({ name, count }) => words.lendItem(name, count)),
  };
}

/** What of the desk's things makes up for something this guest lacks here. */
function helps({ kind }: Lendable, { bring }: FitResult): boolean {
  const codes: Readonly<Record<string, Lendable["kind"]>> = { cord: "power-cord", hose: "water-hose", "sewer-hose": "sewer-hose", adapter: "adapter", regulator: "regulator", "lift-side": "blocks", "lift-along": "blocks" };
  return bring.some(({ code }) => codes[code] === kind);
}

type Said = Omit<StepText, "does">;

function stepInWords(step: Step, subject: Subject): Said {
  const { steps } = words, n = numbersFor(subject.units);
  switch (step.does) {
    case "look": return { title: steps.look.title, lines: [...steps.look.lines, ...(step.overhead.length > 0 ? step.overhead.map((one) => overheadLine(one, subject)) : [steps.look.none])] };
    case "uncouple": return { title: steps.uncouple.title, lines: [...(step.backsIn ? [steps.uncouple.backs] : []), ...steps.uncouple.lines] };
    case "stand": return { title: steps.stand.title, lines: [...standLines(step, subject), steps.stand.slow] };
    case "check": return { title: step.unhitches ? steps.check.title.unhitch : steps.check.title.stay, lines: checkLines(step, subject) };
    case "level-side": {
      const { raise, check, now, flat, title } = steps["level-side"];
      return { title, lines: step.tilt ? [raise(words.side[step.tilt.low], n.lacking(step.tilt.lift), step.tilt.blocks), check, now[step.unhitches ? "unhitch" : "stay"]] : [flat] };
    }
    case "chock": return { title: steps.chock.title, lines: [...steps.chock.lines, ...(step.falls === null ? [] : [steps.chock.falls(`${step.falls.toFixed(1)}%`), step.unhitches ? steps.chock.hitched : steps.chock.braked])] };
    case "unhitch": return { title: steps.unhitch.title, lines: [steps.unhitch.front[step.front], ...steps.unhitch.lines] };
    case "level-along": {
      const { by: said, flat, title } = steps["level-along"], { tilt, by } = step;
      if (!tilt) return { title, lines: [flat] };
      const lift = n.lacking(tilt.lift);
      return { title, lines: by === "blocks" ? [said.blocks(tilt.low, lift, tilt.blocks), ...said.wheels] : by === "nothing" ? said.nothing(tilt.low, lift) : [said.front(tilt.low, lift, words.fronts[by])] };
    }
    case "stabilize": case "jacks": return { title: steps[step.does].title, lines: steps[step.does].lines(step.jacks) };
    case "power": return { title: steps.power.title, lines: powerLines(step, subject) };
    case "water": return { title: steps.water.title, lines: waterLines(step, subject) };
    case "sewer": return { title: steps.sewer.title, lines: sewerLines(step.need, subject) };
    case "gas": return steps.gas;
    case "slides": case "parts": case "awning": return { title: steps[step.does].title, lines: [...(step.out.length > 0 ? [...steps[step.does].lines, steps[step.does].out(named(step.out))] : []), ...(step.leftIn.length > 0 ? [steps[step.does].leftIn(named(step.leftIn))] : [])] };
    case "vehicle": {
      const { title, told, at } = steps.vehicle, { place } = step;
      return { title, lines: [place === "in line" || place === "overflow" || place === "behind" ? told[place] : at(nameOf(place, subject))] };
    }
  }
}

type Of<Does extends Step["does"]> = Extract<Step, { does: Does }>;

function standLines({ marks, comes }: Of<"stand">, subject: Subject): string[] {
  const { stand } = words.steps, n = numbersFor(subject.units);
  const { left, right } = marks.toEdges;
  return [
    words.pose[comes],
    ...marks.beside.map(({ id, side, ahead, off }) => (ahead >= 0 ? stand.beside : stand.behind)(nameOf(id, subject), words.side[side], n.measured(Math.abs(ahead)), n.measured(off))),
    ...(marks.toEnd === null ? [] : [stand.end[comes === "backs-in" ? "back" : "front"](n.measured(marks.toEnd))]),
    ...(left === null || right === null ? [] : [stand.edges(n.measured(left), n.measured(right))]),
  ];
}

function overheadLine({ id, what, height, guessed }: Overhead, subject: Subject): string {
  const name = nameOf(id, subject);
  if (height === null) return words.overhead.unmeasured(name);
  const told = numbersFor(subject.units).spare(height);
  return guessed ? words.overhead.guessed(name, told) : words.overhead[what](name, told);
}

function checkLines({ parts, needs }: Of<"check">, { rig, units }: Subject): string[] {
  const { check } = words.steps, n = numbersFor(units);
  return [
    ...check.lines,
    ...(parts.length > 0 ? [check.parts(named(parts))] : []),
    ...needs.filter(({ route }) => route !== null).map(({ service, own, route }) => check.run(runNames[service], n.spare(own), n.lacking(route!))),
    ...(rig.supports.some(({ kind }) => kind === "jack") ? [check.jacks] : []),
  ];
}

function powerLines({ need, power, instead }: Of<"power">, subject: Subject): string[] {
  const { steps: { power: said } } = words, { things } = catalogueOf();
  const loads = (ids: readonly string[]) => ids.map((id) => things.load(id));
  return [
    ...said.order,
    said.receptacle(power.receptacle, power.through),
    ...runLines(said, need, subject),
    ...(power.runs.length > 0 ? [said.runs(loads(power.runs))] : []),
    ...(instead.length > 0 ? [said.shed(loads(power.shed)), ...instead.map(({ load, off }) => (off === null ? said.never(things.load(load)) : said.instead(things.load(load), loads(off))))] : []),
    said.hot,
  ];
}

function waterLines({ need, rinse, pressure, regulator }: Of<"water">, subject: Subject): string[] {
  const { water } = words.steps;
  const fitted = regulator === "wanted" && pressure !== null ? water.regulator.wanted(numbersFor(subject.units).pressure(pressure)) : water.regulator[regulator === "own" ? "own" : "advised"];
  return [water.tap, ...(rinse ? [water.rinse] : []), fitted, water.inlet, ...runLines(water, need, subject)];
}

function sewerLines(need: NeedResult, { units }: Subject): string[] {
  const { sewer } = words.steps, n = numbersFor(units);
  return [
    sewer.shut, sewer.seat,
    ...(need.fall && need.route !== null ? [sewer.fall(n.spare(need.fall.drop), n.measured(need.route))] : []),
    ...(need.extra > 0 ? [sewer.extra(n.lacking(need.extra))] : []),
    sewer.empty,
  ];
}

interface RunWords {
  readonly run: (route: string, own: string) => string;
  readonly extra: (extra: string) => string;
}

function runLines(said: RunWords, { route, own, extra }: NeedResult, { units }: Subject): string[] {
  const n = numbersFor(units);
  return [...(route === null ? [] : [said.run(n.lacking(route), n.spare(own))]), ...(extra > 0 ? [said.extra(n.lacking(extra))] : [])];
}

/** How to come in, in sentences: from which side, in sight or blind, tightest where, helpers' places; or why no way is told. */
export function wayLines(it: WayIn | null, subject: Subject): string[] {
  const { way: said } = words, names = (ids: readonly string[]) => ids.map((id) => nameOf(id, subject));
  if (!it) return [said.unknown];
  const unmeasured = it.unmeasured.length > 0 ? [said.unmeasured(names(it.unmeasured))] : [];
  if (!it.way) return [...(it.state === "no" ? [said.none, ...(it.barred && it.barred.things.length > 0 ? [said.noneFor(names(it.barred.things))] : [])] : [said.notFound]), ...unmeasured];
  const { from, sight, gap, legs, spotting: { posts, unseen }, usual } = it.way, n = numbersFor(subject.units);
  const backs = legs[0]?.gear === "reverse", other = gap.other === "ground" ? said.ground : nameOf(gap.other, subject);
  return [
    said.from(from),
    backs ? said[sight] : said.forward,
    said.room(n.spare(Math.max(0, gap.gap ?? 0)), said.parts[gap.part], other),
    ...(backs && carOnHitch(subject) ? [said.car] : []),
    ...posts.map(({ away }, i) => said.post(i + 1, n.spare(away))),
    ...(posts.length === 0 ? [said.noPost] : unseen.length > 0 ? [said.unseen] : []),
    ...(posts.some(({ onRoad }) => onRoad) ? [said.onRoad] : []),
    ...scrapeLines(it, subject),
    ...unmeasured,
    ...wayOut(it, it.way, subject),
    ...(usual ? [said.usual] : []),
  ];
}

const carOnHitch = ({ rig, result }: Subject) => isMotorized(rig.kind) && result.vehicle === "hitched";

/** What is known of changes of slope: nothing where none was measured, and then it is said so. */
function scrapeLines({ scrapes }: WayIn, { site, units }: Subject): string[] {
  const { scrape: said } = words.way, n = numbersFor(units), breaks = site.approach?.gradeBreaks ?? [];
  if (breaks.length === 0) return [said.unmeasured];
  return breaks.flatMap(({ at, change }) => {
    const where = said.where[at < 0 ? "before" : "inside"](n.measured(Math.abs(at))), there = scrapes.filter((one) => one.at === at);
    const told = said[change > 0 ? "dip" : "crest"](where);
    return there.length > 0 ? there.map(({ part }) => `${told} ${said.may(said.parts[part])}`) : [`${told} ${said.none}`];
  });
}

/** How to leave again: on over the far road, or back onto the one in front. */
function wayOut({ leave }: WayIn, { legs, from }: WayShown, subject: Subject): string[] {
  const { out: said } = words.way, first = legs[0]!, away = legs.find(({ kind }) => kind === "out");
  if (away) return [said.on(turnOf(away))];
  if (leave === "not-found") return [said.notFound];
  if (subject.site.entry === "pull-through") return [said.open];
  if (first.gear !== "reverse") return [...(carOnHitch(subject) ? [said.car] : []), said.backward];
  const straight = straightAhead(first);
  return [said.forward(from, straight < 300 ? null : numbersFor(subject.units).spare(straight)), said.swings];
}

/** How far the front wheels roll straight ahead on the way out again, mm, before they begin to turn. */
function straightAhead({ line }: DrawnLeg): number {
  const out = [...line].reverse(), [a, b] = out;
  if (!a || !b) return 0;
  const ahead = Math.atan2(b[1] - a[1], b[0] - a[0]), turns = out.findIndex(([x, y], i) => i > 0 && Math.abs(Math.sin(Math.atan2(y - out[i - 1]![1], x - out[i - 1]![0]) - ahead)) > BEGINS_TO_TURN);
  const [x, y] = turns < 0 ? out.at(-1)! : out[turns - 1]!;
  return Math.hypot(x - a[0], y - a[1]);
}

/** About two degrees: less a driver does not see. */
const BEGINS_TO_TURN = 0.035;

/** To which side the rig has turned at the end of a leg, as its driver sees it. */
function turnOf({ line }: DrawnLeg): "left" | "right" | "straight" {
  const [a, b, c, d] = [line[0]!, line[1] ?? line[0]!, line.at(-2) ?? line[0]!, line.at(-1)!];
  const cross = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]), along = (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]);
  const turned = Math.atan2(cross, along);
  return Math.abs(turned) < Math.PI / 8 ? "straight" : turned > 0 ? "left" : "right";
}

/** At most five: where to stop, level, power, sewer or water, and what hangs lowest. */
function fiveLines(subject: Subject, { steps, side, along, levelsBy }: SetUp): CardText["five"] {
  const n = numbersFor(subject.units), { fiveNames: names } = words;
  const of = <Does extends Step["does"]>(does: Does) => steps.find((step): step is Of<Does> => step.does === does);
  const stand = of("stand"), power = of("power"), sewer = of("sewer"), water = of("water"), lowest = of("look")?.overhead[0];
  const level = [side && words.raise(words.side[side.low], n.lacking(side.lift)), along && (levelsBy === "nothing" ? words.staysLow(along.low, n.lacking(along.lift)) : levelsBy !== "blocks" && along.low === "rear" ? words.lower("front", n.lacking(along.lift)) : words.raise(along.low, n.lacking(along.lift)))].filter((text) => text !== null);
  const lines = [
    stand && { name: names.stop, text: standLines(stand, subject)[1] ?? standLines(stand, subject)[0]! },
    { name: names.level, text: level.length > 0 ? words.levels(level) : words.levelEnough },
    power && { name: names.power, text: `${words.steps.power.receptacle(power.power.receptacle, power.power.through)} ${power.need.route === null ? "" : words.steps.power.run(n.lacking(power.need.route), n.spare(power.need.own))}`.trim() },
    sewer?.need.fall && sewer.need.route !== null ? { name: names.sewer, text: words.steps.sewer.fall(n.spare(sewer.need.fall.drop), n.measured(sewer.need.route)) } : water && water.need.route !== null ? { name: names.water, text: words.steps.water.run(n.lacking(water.need.route), n.spare(water.need.own)) } : undefined,
    lowest && { name: names.up, text: overheadLine(lowest, subject) },
  ];
  return lines.filter((line) => line !== undefined);
}

function named(parts: readonly RigPart[]): string[] {
  return parts.map((part) => catalogueOf().things.full({ type: "part", part }));
}

function nameOf(id: string, { site }: Subject): string {
  const thing = siteThing(id, site);
  return thing ? catalogueOf().things.full(thing) : (site.approach?.heightLimits.find((limit) => limit.id === id)?.kind ?? id);
}
