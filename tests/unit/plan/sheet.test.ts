import { describe, expect, it } from "vitest";
import { defaultPolicy, place, rankSites } from "@/lib/fit";
import { overlap } from "@/app/components/plan/labels";
import { layoutPlan } from "@/app/components/plan/sheet";
import { spread } from "@/app/components/plan/spread";
import type { PageBox, PagePoint, PlanLayout } from "@/app/components/plan/types";
import { demoRig, demoSites, rig as caravan, site as sketch } from "../wording/scene";

/** Rounding of drawn numbers aside, this is exact: a millionth of a unit. */
const EXACT = 6;
const gap = (a: PagePoint, b: PagePoint) => Math.hypot(a[0] - b[0], a[1] - b[1]);

function within(points: readonly PagePoint[], { width, height }: PlanLayout): boolean {
  return points.every(([x, y]) => x >= 0 && y >= 0 && x <= width && y <= height);
}

/** Every rule of a plan that holds whatever is drawn: one message for each that is broken. */
function faultsOf(layout: PlanLayout, labelled: number): string[] {
  const faults: string[] = [];
  const boxes = layout.labels.map((l) => l.box);
  const page: PageBox = { x: 0, y: 0, w: layout.width, h: layout.height };
  layout.labels.forEach((a, i) => {
    if (a.box.x < page.x || a.box.y < page.y || a.box.x + a.box.w > page.w || a.box.y + a.box.h > page.h) faults.push(`label ${a.id} leaves the page`);
    layout.labels.slice(i + 1).forEach((b) => { if (overlap(a.box, b.box)) faults.push(`labels ${a.id} and ${b.id} overlap`); });
    layout.hookups.forEach((h) => { if (h.symbol[0] > a.box.x && h.symbol[0] < a.box.x + a.box.w && h.symbol[1] > a.box.y && h.symbol[1] < a.box.y + a.box.h) faults.push(`label ${a.id} lies on the mark of ${h.id}`); });
  });
  if (boxes.length < labelled) faults.push(`${labelled - boxes.length} things carry no label`);
  const shapes = [layout.pad, layout.lot ?? [], ...layout.stalls.map((s) => s.points), layout.rig?.body ?? [], layout.rig?.hitch ?? [], ...(layout.rig?.parts ?? []).map((p) => p.points), layout.vehicle?.points ?? [], ...layout.lines.map((l) => l.points), layout.gap ? [layout.gap.from, layout.gap.to] : [], layout.hookups.map((h) => h.at), layout.hookups.map((h) => h.symbol)];
  if (!shapes.every((points) => within(points, layout))) faults.push("something leaves the page");
  if (layout.scaleBar.at[0] + layout.scaleBar.length > layout.width) faults.push("the scale bar leaves the page");
  return faults;
}

describe.each(["demo-van-17", "demo-class-a-40", "demo-folding-12", "demo-fw-42", "demo-tt-31"])("every plan of the demo park for %s", (id) => {
  const rig = demoRig(id);
  const fits = rankSites(demoSites, rig, defaultPolicy).map((result) => ({ result, site: demoSites.find((s) => s.id === result.site)! }));

  it("is within its page, with every name, none on another", () => {
    const faults = fits.flatMap(({ result, site }) => {
      const layout = layoutPlan(site, { rig, result }, "ft-in");
      return faultsOf(layout, layout.hookups.length + layout.obstacles.length + (layout.rig?.parts.length ?? 0)).map((f) => `${site.id}: ${f}`);
    });
    expect(faults).toEqual([]);
  });

  it("is to one scale: body, hitch and every part are as long on paper as they are", () => {
    for (const { result, site } of fits) {
      const { rig: drawn, scale, pad } = layoutPlan(site, { rig, result }, "metric");
      site.pad.outline.forEach((p, i) => {
        const q = site.pad.outline[(i + 1) % site.pad.outline.length]!;
        expect(gap(pad[i]!, pad[(i + 1) % pad.length]!)).toBeCloseTo(Math.hypot(p[0] - q[0], p[1] - q[1]) * scale, EXACT);
      });
      if (!drawn) continue;
      const [a, b, c] = drawn.body as [PagePoint, PagePoint, PagePoint];
      expect(gap(a, b)).toBeCloseTo(rig.body.length * scale, EXACT);
      expect(gap(b, c)).toBeCloseTo(rig.body.width * scale, EXACT);
      // A refusal's nearest try leaves out the parts that may stay in.
      for (const part of rig.parts.filter((p) => result.verdict !== "no" || p.need === "must")) {
        const [p, q, r] = drawn.parts.find((d) => d.id === part.id)!.points as [PagePoint, PagePoint, PagePoint];
        const sizes = [gap(p, q), gap(q, r)].sort((x, y) => x - y), real = [part.depth, part.span[1] - part.span[0]].sort((x, y) => x - y);
        expect(sizes[0]).toBeCloseTo(real[0]! * scale, EXACT);
        expect(sizes[1]).toBeCloseTo(real[1]! * scale, EXACT);
      }
    }
  });
});

describe("the plan of a refusal", () => {
  const refused = ["demo-class-a-40", "demo-toy-hauler-32", "demo-van-20-ramp", "demo-class-b-19", "demo-tt-20"].flatMap((id) => {
    const rig = demoRig(id);
    return rankSites(demoSites, rig, defaultPolicy)
      .filter((r) => r.verdict === "no")
      .map((result) => ({ rig, result, layout: layoutPlan(demoSites.find((s) => s.id === result.site)!, { rig, result }, "ft-in"), shown: result.conflicts.find((c) => c.shown)?.shown }));
  });

  it("shows the nearest try and says that it is no place, or the site alone where no place would help", () => {
    expect(refused.length).toBeGreaterThan(100);
    for (const { layout, shown } of refused) {
      expect(layout.rig !== null).toBe(shown !== undefined);
      expect(layout.refused?.stamp ?? null).toBe(shown ? "not a place to park" : null);
    }
  });

  it("has the missing dimension as long as it is, and names it", () => {
    for (const { layout, shown } of refused) {
      if (!shown?.gap) continue;
      const label = layout.labels.find((l) => l.id === "gap");
      expect(label?.accent).toBe(true);
      if (shown.gap.line) {
        expect(layout.lines).toHaveLength(1);
        expect(label!.lines.join(" ")).toMatch(shown.dropped === "fall:sewer" ? /[″′] too high$/ : /[″′] over$/);
        continue;
      }
      expect(label!.lines.join(" ")).toMatch(/[″′] short$/);
      expect(gap(layout.gap!.from, layout.gap!.to)).toBeCloseTo(shown.gap.short * layout.scale, 3);
    }
  });

  it("has in full ink exactly what the conflict is about, each with its name", () => {
    for (const { rig, result, layout, shown } of refused) {
      if (!shown) continue;
      const { constraints } = result.conflicts.find((c) => c.shown)!;
      const about = new Set(constraints.flatMap((id) => id.split(":").slice(1)));
      for (const o of [...layout.obstacles, ...(layout.rig?.parts ?? [])]) {
        const label = layout.labels.find((l) => l.id === o.id);
        expect(label, `${rig.id} on ${result.site}: ${o.id} has no name`).toBeDefined();
        if (label && !constraints.includes("road")) expect(label.faint, `${rig.id} on ${result.site}: ${o.id} of ${constraints.join(" ")}`).toBe(!about.has(o.id));
      }
    }
  });

  it("leaves out the parts that may stay in", () => {
    for (const { rig, layout } of refused) {
      const nice = rig.parts.filter((p) => p.need === "nice").map((p) => p.id);
      expect(layout.rig?.parts.filter((p) => nice.includes(p.id)) ?? []).toEqual([]);
    }
  });
});

describe("a plan", () => {
  const pose = { x: 12900, y: 250, heading: "tail-in" as const };
  const result = { verdict: "fits", pose, leftIn: ["awning"], vehicle: "stall", needs: [], limit: { id: "clear:lounge:oak", slack: 210, distance: 360, from: [8720, -3020], to: [8700, -1970] } } as never;
  const layout = layoutPlan(sketch, { rig: caravan, result }, "ft-in");

  it("has the road at the bottom, the left of someone on the road at the left, and nothing turned over", () => {
    const [atRoad, deep] = [layout.pad[0]!, layout.pad[1]!];
    expect(atRoad[1]).toBeGreaterThan(deep[1]);
    expect(layout.pad[0]![0]).toBeGreaterThan(layout.pad[3]![0]); // y = -1800 is to the right of y = 1800
    expect(layout.roads[0]!.edge[0][1]).toBeCloseTo(layout.pad[0]![1], EXACT);
  });

  it("shows the rig facing the road where it is backed in, and the front at the front", () => {
    const ys = layout.rig!.body.map((p) => p[1]);
    expect(layout.rig!.front[1]![1]).toBeGreaterThan((Math.min(...ys) + Math.max(...ys)) / 2);
    const front = place(pose, caravan.body.length, 0);
    expect(front[0]).toBe(12900 - 9400);
  });

  it("marks what stays in, and stands the truck in its stall", () => {
    expect(layout.rig!.parts.filter((p) => p.leftIn).map((p) => p.id)).toEqual(["awning"]);
    expect(gap(layout.vehicle!.points[0]!, layout.vehicle!.points[1]!)).toBeCloseTo(5900 * layout.scale, EXACT);
    const stall = layout.stalls[0]!.points.map((p) => p[0]);
    for (const [x] of layout.vehicle!.points) expect(x > Math.min(...stall) && x < Math.max(...stall)).toBe(true);
  });

  it("has a scale bar of a round length in the reader's units", () => {
    expect(layout.scaleBar.text).toBe("10 ft");
    expect(layout.scaleBar.length).toBeCloseTo(3048 * layout.scale, EXACT);
    const metric = layoutPlan(sketch, { rig: caravan, result }, "metric").scaleBar;
    expect(metric.text).toBe("5 m");
    expect(metric.length).toBeCloseTo(5000 * layout.scale, EXACT);
  });

  it("turns the north arrow against the pad's bearing", () => {
    expect(layout.north?.turn).toBe(-118);
    expect(layoutPlan({ ...sketch, place: undefined }, null, "ft-in").north).toBeNull();
  });

  it("shows a site without a rig", () => {
    const alone = layoutPlan(sketch, null, "ft-in");
    expect(alone.rig).toBeNull();
    expect(alone.gap).toBeNull();
    expect(faultsOf(alone, sketch.hookups.length + sketch.obstacles.length)).toEqual([]);
  });
});

describe("marks that would lie on each other", () => {
  it("are moved apart, and kept on the page", () => {
    const moved = spread([[50, 50], [50, 50], [53, 50], [1, 1]], 13, { x: 0, y: 0, w: 100, h: 100 }, 7);
    for (let i = 0; i < moved.length; i++) for (let j = i + 1; j < moved.length; j++) expect(gap(moved[i]!, moved[j]!)).toBeGreaterThan(12.9);
    for (const [x, y] of moved) expect(x >= 7 && y >= 7 && x <= 93 && y <= 93).toBe(true);
  });

  it("stay where they are when they are clear", () => {
    expect(spread([[20, 20], [60, 60]], 13, { x: 0, y: 0, w: 100, h: 100 }, 7)).toEqual([[20, 20], [60, 60]]);
  });
});
