import { describe, expect, it } from "vitest";
import { drawn, grasp, zoomAt, type Lens, type Look, type Spot } from "@/app/manage/editing/lens";
import { viewKey } from "@/app/manage/editing/use-lens";
import { siteLens } from "@/app/manage/editing/view";
import { mapLens } from "@/app/manage/map/map-view";

const far = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!);
const lenses: [name: string, lens: Lens, look: Look][] = [
  ["a site's plan", siteLens({ w: 390, h: 360 }), { middle: [6000, -400], scale: 0.02 }],
  ["the park's map", mapLens({ w: 390, h: 360 }), { middle: [120_000, 80_000], scale: 0.002 }],
];

describe.each(lenses)("what is shown of %s", (_, lens, look) => {
  it("keeps the ground between two fingers between them, however they part, close and turn, and grows as they part", () => {
    const from: Spot[] = [[100, 120], [180, 180]], held = grasp(lens, look, from);
    for (const to of [[[60, 90], [220, 210]], [[130, 140], [160, 170]], [[180, 120], [100, 180]], [[150, 220], [230, 280]]] as Spot[][]) {
      const now = drawn(lens, held, to), middle: Spot = [(to[0]![0] + to[1]![0]) / 2, (to[0]![1] + to[1]![1]) / 2];
      expect(far(lens.groundAt(now, middle), held.ground)).toBeLessThan(1e-6);
      expect(now.scale / look.scale).toBeCloseTo(far(to[0]!, to[1]!) / 100, 9);
    }
  });

  it("moves with two fingers that keep apart, and with one alone, as far as they go", () => {
    const ground = lens.groundAt(look, [200, 150]);
    for (const fingers of [[[200, 150]], [[170, 150], [230, 150]]] as Spot[][]) {
      const now = drawn(lens, grasp(lens, look, fingers), fingers.map(([x, y]): Spot => [x + 37, y - 21]));
      expect(now.scale).toBe(look.scale);
      expect(far(lens.groundAt(now, [237, 129]), ground)).toBeLessThan(1e-6);
    }
  });

  it("does not jump when one finger is lifted or comes down again", () => {
    const two: Spot[] = [[100, 120], [180, 180]];
    const now = drawn(lens, grasp(lens, look, two), [[80, 100], [240, 220]]);
    for (const left of [[[80, 100]], [[80, 100], [240, 220]]] as Spot[][]) {
      const after = drawn(lens, grasp(lens, now, left), left);
      expect(far(after.middle, now.middle) + Math.abs(after.scale - now.scale)).toBeLessThan(1e-6);
    }
  });

  it("comes no nearer and goes no farther than it can be read, and stays where it is on the ground then too", () => {
    const spot: Spot = [300, 60], ground = lens.groundAt(look, spot);
    const [nearest, farthest] = [zoomAt(lens, look, 1e6, spot), zoomAt(lens, look, 1e-6, spot)] as const;
    for (const end of [nearest, farthest]) expect(far(lens.groundAt(end, spot), ground)).toBeLessThan(1e-6);
    expect(nearest.scale).toBeGreaterThan(look.scale);
    expect(farthest.scale).toBeLessThan(look.scale);
    expect(zoomAt(lens, nearest, 2, spot)).toEqual(nearest);
    const held = grasp(lens, nearest, [[100, 100], [200, 100]]);
    expect(drawn(lens, held, [[50, 100], [250, 100]]).scale).toBe(nearest.scale);
  });

  it("bears fingers that a glass reports on one spot", () => {
    const now = drawn(lens, grasp(lens, look, [[90, 90], [90, 90]]), [[90, 90], [90, 90]]);
    expect(now.scale).toBe(look.scale);
    expect(Number.isFinite(now.middle[0])).toBe(true);
  });
});

describe("keys for the view", () => {
  const press = (key: string, more = {}) => viewKey({ key, ctrlKey: false, metaKey: false, altKey: false, ...more });
  it("are plus, minus and 0, and leave the browser its own", () => {
    expect(press("+")).toBeGreaterThan(1);
    expect(press("=")).toBe(press("+"));
    expect(Number(press("-")) * Number(press("+"))).toBeCloseTo(1, 12);
    expect(press("0")).toBe("whole");
    expect([press("+", { ctrlKey: true }), press("0", { metaKey: true }), press("a")]).toEqual([null, null, null]);
  });
});
