import { describe, expect, it } from "vitest";
import { elevationShapes, elevationsOf, steeper } from "@/lib/card/elevation";
import { drawPlan, scaleLength } from "@/lib/card/plan-shapes";
import { planSetUp } from "@/lib/card/set-up";
import { drawWayPlan, hatch } from "@/lib/card/way-shapes";
import { policySchema } from "@/lib/fit";
import { findWayIn } from "@/lib/jobs/find-way-in";
import { contains, type Point } from "@/lib/plane";
import { demo, everyStand, type Stood } from "./demo";

const policy = policySchema.parse({});
const wayOf = ({ site, rig, result }: Stood) => findWayIn({ site, rig, pose: result.pose!, policy })!;

describe("hatching", () => {
  const square = (x: number, y: number, side: number): Point[] => [[x, y], [x + side, y], [x + side, y + side], [x, y + side]];

  it("lies on the pieces, at 45 degrees, so far apart, and covers their area evenly", () => {
    const lines = hatch([square(0, 0, 1000)], 50);
    for (const [[ax, ay], [bx, by]] of lines) expect(Math.abs(ax - bx)).toBeCloseTo(Math.abs(ay - by), 6);
    expect(lines.every(([a, b]) => [a, b].every(([x, y]) => x >= -1e-6 && x <= 1000 + 1e-6 && y >= -1e-6 && y <= 1000 + 1e-6))).toBe(true);
    const drawn = lines.reduce((sum, [[ax, ay], [bx, by]]) => sum + Math.hypot(bx - ax, by - ay), 0);
    expect(drawn * 50).toBeGreaterThan(0.97e6);
    expect(drawn * 50).toBeLessThan(1.03e6);
  });

  it("draws ground that two pieces share once", () => {
    const length = (lines: [Point, Point][]) => lines.reduce((sum, [[ax, ay], [bx, by]]) => sum + Math.hypot(bx - ax, by - ay), 0);
    expect(length(hatch([square(0, 0, 1000), square(0, 0, 1000), square(200, 200, 300)], 50))).toBeCloseTo(length(hatch([square(0, 0, 1000)], 50)), 6);
    expect(length(hatch([square(0, 0, 1000), square(5000, 0, 1000)], 50)) / length(hatch([square(0, 0, 1000)], 50))).toBeCloseTo(2, 0);
  });
});

describe("the plan of a way in", () => {
  const stood = demo("c04", "demo-tt-23"), way = wayOf(stood).way!, picture = drawWayPlan(stood.site, way);
  const of = (name: string) => picture.shapes.filter((shape) => shape.of === name);

  it("holds the road, the pad, the hatched ground, the rig at several moments and where it stands", () => {
    expect(of("road")).toHaveLength(1);
    expect(of("pad")).toHaveLength(1);
    expect(of("hatch").length).toBeGreaterThan(20);
    expect(of("moment").length).toBeGreaterThanOrEqual(3 * 2);
    expect(of("body").length).toBeGreaterThanOrEqual(2);
  });

  it("is to scale: the trailer on it is as long as the trailer", () => {
    const lengths = of("body").map((shape) => (shape.shape === "outline" ? Math.max(...shape.points.map(([x, y], i) => Math.hypot(x - shape.points[(i + 1) % shape.points.length]![0], y - shape.points[(i + 1) % shape.points.length]![1]))) : 0));
    expect(Math.min(...lengths.map((length) => Math.abs(length - stood.rig.body.length)))).toBeLessThan(1);
  });

  it("has the road at the bottom, and hatching under the rig's every moment", () => {
    const middle = (shape: (typeof picture.shapes)[number]) => (shape.shape === "disc" ? shape.at[1] : shape.points.reduce((sum, [, y]) => sum + y, 0) / shape.points.length);
    expect(middle(of("pad")[0]!)).toBeLessThan(picture.height / 2);
    for (const moment of of("moment")) {
      const outline = moment.shape === "outline" ? moment.points : [];
      const under = of("hatch").filter((line) => line.shape === "line" && [0.1, 0.3, 0.5, 0.7, 0.9].some((t) => contains(outline, [line.points[0]![0] * (1 - t) + line.points[1]![0] * t, line.points[0]![1] * (1 - t) + line.points[1]![1] * t])));
      const wide = Math.min(...outline.map(([x, y], i) => Math.hypot(x - outline[(i + 1) % outline.length]![0], y - outline[(i + 1) % outline.length]![1])));
      if (wide > 1500) expect(under.length).toBeGreaterThan(0);
    }
  });

  it("dimensions the tightest place as long as the tape would read, and shows every helper within the frame", () => {
    const [[ax, ay], [bx, by]] = picture.gap;
    expect(Math.abs(Math.hypot(bx - ax, by - ay) - way.gap.gap!)).toBeLessThan(1);
    expect(picture.posts).toHaveLength(way.spotting.posts.length);
    for (const [x, y] of [...picture.posts, ...picture.gap]) expect(x > 0 && y > 0 && x < picture.width && y < picture.height).toBe(true);
  });

  it("shows both roads of a pull-through and the way off it", () => {
    const through = demo("b03", "demo-class-a-35"), both = drawWayPlan(through.site, wayOf(through).way!);
    expect(both.shapes.filter((shape) => shape.of === "road")).toHaveLength(2);
    expect(wayOf(through).way!.legs.map(({ kind }) => kind)).toEqual(["in", "out"]);
  });
});

describe("the plan of where to stop", () => {
  it("letters each service it draws a line to, and tells north", () => {
    const stood = demo("d03", "demo-tt-31"), plan = drawPlan(stood.site, stood.rig, stood.result);
    expect(plan.hookups.map(({ service }) => service).sort()).toEqual(["power", "sewer", "water"]);
    expect(plan.north).toBe(-stood.site.place!.bearing);
  });

  it("has a scale of a round length that takes at most a third of it", () => {
    expect(scaleLength(13_000, "metric")).toEqual({ mm: 2000, count: 2 });
    expect(scaleLength(13_000, "ft-in").count).toBe(10);
    for (const width of [9000, 20_000, 60_000]) expect(scaleLength(width, "metric").mm).toBeLessThanOrEqual(width / 3);
  });
});

describe("the elevations", () => {
  it("stand every tire level, lift a trailer's front at its jack, and show as much under it as is said, as steep as is said", () => {
    const jacked = everyStand().filter((_, i) => i % 5 === 0).flatMap((stood) => elevationsOf(stood.site, stood.rig, planSetUp(stood.site, stood.rig, stood.result)!));
    expect(jacked.some(({ jack }) => jack !== null)).toBe(true);
    for (const elevation of jacked) {
      const shapes = elevationShapes(elevation);
      expect(new Set(shapes.tires.map(({ at }) => at[1])).size).toBe(1);
      expect(shapes.jack !== null).toBe(elevation.jack !== null);
      if (elevation.jack !== null) expect(elevation.jack).toBeLessThan(Math.min(...elevation.tires));
      // A trailer whose rear is low is let down in front: nothing goes under its jack.
      if (elevation.jack !== null && elevation.low === "rear") expect(shapes.block).toBeNull();
      if (shapes.block && elevation.jack !== null) expect(shapes.block.height / steeper / elevation.lift).toBeCloseTo(1, 1);
    }
  });
});
