import type { Units } from "@/lib/measure";
import type { Fault } from "@/lib/park/edit/faults";
import { keyOf, pointAt, type Draft } from "@/lib/park/edit/record";
import { pointsOfThing, thingsOf, type Thing } from "@/lib/park/edit/things";
import { numbersIn } from "@/lib/wording/format";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { fixed, pathOf, pointsOf } from "../../../../components/plan/paths";
import type { PagePoint } from "../../../../components/plan/types";
import { nameOf } from "../../../editing/names";
import { hookupSymbols } from "../../../editing/plan-ground";
import { toPage, type PageSize, type View } from "../../../editing/view";
import styles from "../../../editing/editor.module.css";

interface GripsProps {
  readonly draft: Draft;
  readonly view: View;
  readonly size: PageSize;
  readonly units: Units;
  readonly faults: readonly Fault[];
  readonly selected: string | null;
}

/** Half of what a thumb needs. */
const THUMB = 22;
/** Large grounds below, small things on top, so that each can be reached. */
const ORDER: readonly Thing["kind"][] = ["lot", "road", "exit-road", "driveable", "pad", "stall", "road-edge", "exit-edge", "height-limit", "spot-heights", "obstacle", "hookup"];

/** What can be laid hold of: every thing, and of the chosen one every point. Named and in reach of the Tab key. */
export function PlanGrips({ draft, view, size, units, faults, selected }: GripsProps) {
  const things = thingsOf(draft).sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
  const symbols = hookupSymbols(draft, view, size);
  const chosen = things.find(({ path }) => keyOf(path) === selected);
  const around = { draft, view, size, units, faults };
  return (
    <g>
      {things.filter((thing) => thing !== chosen).map((thing) => <ThingGrip key={keyOf(thing.path)} {...around} thing={thing} symbol={thing.kind === "hookup" ? symbols[Number(thing.path[1])]! : null} chosen={false} />)}
      {chosen && <ThingGrip {...around} thing={chosen} symbol={chosen.kind === "hookup" ? symbols[Number(chosen.path[1])]! : null} chosen />}
      {chosen && <Middles draft={draft} thing={chosen} view={view} size={size} />}
      {chosen && chosen.handles.map((path, i) => <PointGrip key={keyOf(path)} {...around} thing={chosen} index={i} />)}
    </g>
  );
}

interface ThingProps extends Omit<GripsProps, "selected"> {
  readonly thing: Thing;
}

function ThingGrip({ draft, view, size, units, faults, thing, symbol, chosen }: ThingProps & { readonly symbol: PagePoint | null; readonly chosen: boolean }) {
  const key = keyOf(thing.path), points = pointsOfThing(draft, thing), page = points.map((p) => toPage(view, size, p));
  const faulty = faults.some((fault) => fault.key === key || fault.key.startsWith(`${key}.`)), [first] = points;
  if (!first) return null;
  const name = words.plan.thing(nameOf(draft, thing), words.spot(first[0], first[1], numbersIn(units, ",")), faulty);
  const state = `${styles.grip} ${chosen ? styles.chosen : ""} ${faulty ? styles.bad : ""}`;
  return (
    <g role="button" tabIndex={0} aria-pressed={chosen} aria-label={name} className={state} data-grip="thing" data-key={key} data-held={chosen || undefined}>
      <title>{nameOf(draft, thing)}</title>
      {thing.shape === "place" && <PlaceTarget at={symbol ?? page[0]!} />}
      {thing.shape === "ring" && <polygon className={thing.kind === "lot" ? styles.edgeTarget : styles.areaTarget} points={pointsOf(page)} />}
      {thing.shape === "line" && <path className={styles.edgeTarget} d={thing.kind === "spot-heights" ? page.map(([x, y]) => `M${fixed(x - 3)} ${fixed(y)}h6`).join("") : pathOf(page)} />}
      {thing.shape !== "place" && thing.kind !== "spot-heights" && <path className={styles.ink} d={`${pathOf(page)}${thing.shape === "ring" ? "Z" : ""}`} />}
      {faulty && <FaultMark at={symbol ?? page[0]!} />}
    </g>
  );
}

function PlaceTarget({ at: [x, y] }: { readonly at: PagePoint }) {
  return <g><circle className={styles.placeTarget} cx={fixed(x)} cy={fixed(y)} r={THUMB} /><circle className={styles.ink} cx={fixed(x)} cy={fixed(y)} r="12" /></g>;
}

/** An exclamation in a box: not by colour alone. */
function FaultMark({ at: [x, y] }: { readonly at: PagePoint }) {
  return <g aria-hidden="true" transform={`translate(${fixed(x + 12)} ${fixed(y - 14)})`}><rect className={styles.faultBox} x="-7" y="-8" width="14" height="16" /><text className={styles.faultText} textAnchor="middle" dominantBaseline="central">!</text></g>;
}

function PointGrip({ draft, view, size, units, thing, index }: ThingProps & { readonly index: number }) {
  const path = thing.handles[index]!, at = pointAt(draft, path);
  if (!at) return null;
  const [x, y] = toPage(view, size, at), where = words.spot(at[0], at[1], numbersIn(units, ",")), name = nameOf(draft, thing), all = thing.handles.length;
  const label = thing.shape === "place" ? words.plan.placeOf(name, where) : thing.shape === "ring" ? words.plan.cornerOf(name, index, all, where) : words.plan.pointOf(name, index, all, where);
  return (
    <g role="button" tabIndex={0} aria-label={label} aria-roledescription={words.plan.handle} className={styles.point} data-grip="point" data-key={keyOf(path)} data-held="">
      <circle className={styles.placeTarget} cx={fixed(x)} cy={fixed(y)} r={THUMB} />
      {thing.shape === "place" ? <path className={styles.aim} d={`M${fixed(x - 9)} ${fixed(y)}h18M${fixed(x)} ${fixed(y - 9)}v18`} /> : <rect className={styles.knob} x={fixed(x - 6)} y={fixed(y - 6)} width="12" height="12" />}
      {thing.shape !== "place" && <text className={styles.knobName} x={fixed(x + 11)} y={fixed(y - 9)} fontSize="11">{index + 1}</text>}
    </g>
  );
}

/** Half-way along an edge, where there is room: one more corner for a mouse. The list and the Insert key add them too. */
function Middles({ draft, thing, view, size }: { readonly draft: Draft; readonly thing: Thing; readonly view: View; readonly size: PageSize }) {
  if (!thing.free) return null;
  const page = pointsOfThing(draft, thing).map((p) => toPage(view, size, p));
  const edges = page.map((p, i) => [p, page[thing.shape === "ring" ? (i + 1) % page.length : i + 1]] as const);
  return (
    <g aria-hidden="true">
      {edges.map(([a, b], i) => {
        if (!b || Math.hypot(b[0] - a[0], b[1] - a[1]) < 76) return null;
        const x = (a[0] + b[0]) / 2, y = (a[1] + b[1]) / 2;
        return <g key={i} className={styles.middle} data-grip="middle" data-key={keyOf(thing.path)} data-index={i}><circle className={`${styles.placeTarget} ${styles.middleTarget}`} cx={fixed(x)} cy={fixed(y)} r="15" /><circle className={styles.middleKnob} cx={fixed(x)} cy={fixed(y)} r="7" /><path className={styles.middlePlus} d={`M${fixed(x - 3.5)} ${fixed(y)}h7M${fixed(x)} ${fixed(y - 3.5)}v7`} /></g>;
      })}
    </g>
  );
}
