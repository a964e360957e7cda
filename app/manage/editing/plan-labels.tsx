import { keyOf, type Draft } from "@/lib/park/edit/record";
import { pointsOfThing, thingsOf } from "@/lib/park/edit/things";
import { LABEL_SIZE, LETTER_WIDTH, LINE_HEIGHT, placeLabels, wrap, type Wanted } from "../../components/plan/labels";
import type { PagePoint } from "../../components/plan/types";
import { fixed } from "../../components/plan/paths";
import { labelOf } from "./names";
import { hookupSymbols } from "./plan-ground";
import { FOOT, toPage, type PageSize, type View } from "./view";
import plan from "../../components/plan/plan.module.css";

interface PlanLabelsProps {
  readonly draft: Draft;
  readonly view: View;
  readonly size: PageSize;
  /** Middles of round marks that no name may cover, of this radius in all. */
  readonly marks?: { readonly at: readonly PagePoint[]; readonly radius: number };
}

/** The names of what stands about, none on another. What finds no room is told by the list beside the plan. */
export function PlanLabels({ draft, view, size, marks }: PlanLabelsProps) {
  const symbols = hookupSymbols(draft, view, size);
  const wanted = thingsOf(draft).flatMap((thing): Wanted[] => {
    if (thing.kind !== "obstacle" && thing.kind !== "hookup" && thing.kind !== "stall") return [];
    const page = pointsOfThing(draft, thing).map((p) => toPage(view, size, p));
    const anchor: PagePoint = thing.kind === "hookup" ? symbols[Number(thing.path[1])]! : [mean(page, 0), mean(page, 1)];
    if (anchor[0] < 4 || anchor[1] < 4 || anchor[0] > size.w - 4 || anchor[1] > size.h - FOOT - 4) return [];
    return [{ id: keyOf(thing.path), lines: wrap(labelOf(draft, thing)), anchor, radius: 9 }];
  });
  const around = (radius: number) => ([x, y]: PagePoint) => ({ x: x - radius, y: y - radius, w: 2 * radius, h: 2 * radius });
  const taken = [...symbols.map(around(7)), ...(marks ? marks.at.map(around(marks.radius)) : [])];
  const labels = placeLabels(wanted, { page: { x: 2, y: 2, w: size.w - 4, h: size.h - FOOT - 4 }, solid: [], taken, lines: [] }).filter(({ number }) => number === null);
  return (
    <g aria-hidden="true">
      {labels.map(({ id, lines, box, leader }) => (
        <g key={id} className={plan.label}>
          {leader && <line className={plan.leader} x1={fixed(leader[0][0])} y1={fixed(leader[0][1])} x2={fixed(leader[1][0])} y2={fixed(leader[1][1])} />}
          {lines.map((line, i) => <text key={i} x={fixed(box.x + box.w / 2)} y={fixed(box.y + 1 + LINE_HEIGHT * (i + 0.5))} fontSize={LABEL_SIZE} textAnchor="middle" dominantBaseline="central" textLength={fixed(line.length * LABEL_SIZE * LETTER_WIDTH)} lengthAdjust="spacingAndGlyphs">{line}</text>)}
        </g>
      ))}
    </g>
  );
}

function mean(points: readonly PagePoint[], axis: 0 | 1): number {
  return points.reduce((sum, p) => sum + p[axis], 0) / Math.max(points.length, 1);
}
