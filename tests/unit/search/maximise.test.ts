import { describe, expect, it } from "vitest";
import { maximise, type Landscape } from "@/lib/search";

const domain = { minX: -1000, maxX: 1000, minY: -500, maxY: 500 };
const options = { gap: 0.5, resolution: 0.01, budget: 100_000 };

/** A cone with its tip of height 100 at (x, y), falling by 1 for each mm. */
function cone(x: number, y: number): Landscape {
  return {
    survey(cell, _parent, offer) {
      const d = Math.hypot(Math.max(0, Math.abs(cell.cx - x) - cell.hx), Math.max(0, Math.abs(cell.cy - y) - cell.hy));
      cell.upper = 100 - d;
      offer(cell.cx, cell.cy, 100 - Math.hypot(cell.cx - x, cell.cy - y), true);
    },
  };
}

describe("the search", () => {
  it("closes within the gap, and says what nothing exceeds", () => {
    const { ended, best, bound } = maximise(domain, cone(333.3, -77.7), options);
    expect(ended).toBe("closed");
    expect(best!.value).toBeGreaterThan(99.5);
    expect(bound).toBeGreaterThanOrEqual(100);
    expect(bound - best!.value).toBeLessThanOrEqual(0.5);
  });

  it("ends at the target, below the floor, or at the budget, and says which", () => {
    expect(maximise(domain, cone(0, 0), { ...options, target: 50 }).ended).toBe("target");
    expect(maximise(domain, cone(333.3, -77.7), { ...options, floor: 101 }).ended).toBe("below");
    const stopped = maximise(domain, cone(333.3, -77.7), { ...options, budget: 9 });
    expect(stopped.ended).toBe("budget");
    expect(stopped.bound).toBeGreaterThanOrEqual(100); // honest however it ended
    expect(stopped.cells).toBeLessThanOrEqual(10);
  });

  it("finds nothing where nothing is allowed", () => {
    const { ended, best, bound } = maximise(domain, { survey: (cell) => void (cell.upper = -Infinity) }, options);
    expect([ended, best, bound]).toEqual(["closed", null, -Infinity]);
  });

  it("keeps points that hold only within tolerance apart, and does not end on them", () => {
    const landscape: Landscape = {
      survey(cell, _parent, offer) {
        cell.upper = 10;
        offer(cell.cx, cell.cy, 10, false);
      },
    };
    const { best, loose, ended } = maximise(domain, landscape, { ...options, budget: 50 });
    expect(best).toBeNull();
    expect(loose).not.toBeNull();
    expect(ended).toBe("budget");
  });

  it("takes a domain of a single point", () => {
    const point = { minX: 3, maxX: 3, minY: 4, maxY: 4 };
    expect(maximise(point, cone(0, 0), options).best).toEqual({ x: 3, y: 4, value: 95 });
  });
});
