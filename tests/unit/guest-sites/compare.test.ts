import { describe, expect, it } from "vitest";
import { compareRows, type CompareRow } from "@/app/(guest)/compare/rows";
import type { Entry } from "@/app/(guest)/sites/filters";
import { defaultPolicy } from "@/lib/fit";
import { demoRig } from "../wording/scene";
import { answered } from "./scene";

const entries = answered("demo-tt-31");
const at = (id: string) => entries.find((e) => e.site.id === id)!;
const context = { rig: demoRig("demo-tt-31"), policy: defaultPolicy, units: "ft-in" as const, loops: [{ id: "B", name: "Long Meadow", character: "Open." }] };
const rowsOf = (...some: Entry[]) => new Map(compareRows(some, context).map((row): [string, CompareRow] => [row.name, row]));
const withRoom = (entry: Entry, room: number): Entry => ({ ...entry, result: { ...entry.result, room } });

describe("a comparison", () => {
  const placed = entries.filter((e) => e.result.pose);

  it("says every row for every site, in words", () => {
    for (const row of compareRows([placed[0]!, placed[1]!, entries.at(-1)!], context)) {
      expect(row.cells).toHaveLength(3);
      for (const lines of row.cells) {
        expect(lines.length, row.name).toBeGreaterThan(0);
        for (const line of lines) expect(line, row.name).toMatch(/^[A-Z0-9“]/);
      }
    }
  });

  it("calls a row different exactly where its cells are", () => {
    const rows = rowsOf(at("b05"), at("c07"));
    expect(rows.get("entry")).toMatchObject({ cells: [["Pull-through"], ["Back-in"]], differs: true });
    for (const row of rowsOf(placed[0]!, placed[0]!).values()) expect([row.name, row.differs, row.best]).toEqual([row.name, false, null]);
  });

  it("names the best of a row only where one alone is better, by more than can be told apart", () => {
    const [one] = placed as [Entry];
    expect(rowsOf(withRoom(one, 300), withRoom(one, 200)).get("room")?.best).toBe(0);
    expect(rowsOf(withRoom(one, 200), withRoom(one, 300), withRoom(one, 299)).get("room")?.best).toBeNull();
    expect(rowsOf(withRoom(one, 300), withRoom(one, 310)).get("room")?.best).toBeNull();
  });

  it("takes room beyond what is looked for as no better", () => {
    const [one] = placed as [Entry];
    expect(rowsOf(withRoom(one, 596), withRoom(one, 840)).get("room")).toMatchObject({ best: null, differs: false });
  });

  it("weighs nothing against a site that has no place", () => {
    const none = entries.find((e) => e.result.verdict === "no")!, [one] = placed as [Entry];
    const rows = rowsOf(one, none);
    for (const { best } of rows.values()) expect(best).toBeNull();
    expect(rows.get("room")?.cells[1]).toEqual(["No place found"]);
  });

  it("the shortest run it names is the shortest of the results", () => {
    for (let i = 0; i + 2 < placed.length; i += 3) {
      const three = placed.slice(i, i + 3), best = rowsOf(...three).get("power")?.best ?? null;
      const routes = three.map((e) => e.result.needs.find((n) => n.service === "power")!.route!);
      if (best !== null) expect(routes[best]).toBe(Math.min(...routes));
    }
  });

  it("tells a loop with what the park says of it", () => {
    expect(rowsOf(at("b05"), at("b06")).get("loop")).toMatchObject({ cells: [["Loop B, Long Meadow", "Open."], ["Loop B, Long Meadow", "Open."]], differs: false });
  });
});
