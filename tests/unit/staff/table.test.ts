import { describe, expect, test } from "vitest";
import quillback from "../../../seed/quillback-meadow/sites.json";
import { makeRows, surveyedSite } from "../../../app/manage/make-rows";
import { arrange, isLeft, type SiteRow } from "../../../app/manage/site-rows";
import { nextSort, noFilters, readTableState, usualColumns, writeTableState, type TableState } from "../../../app/manage/table-state";
import { asDate } from "@/lib/stays";
import { siteColumns } from "@/lib/wording/en/staff-table";

const today = asDate("2026-11-25");
const surveyed = quillback.sites.map(surveyedSite);
/** Numbers are held to their units by spaces that do not break; here they are read as written. */
const plain = (made: SiteRow[]) => made.map((row) => ({ ...row, texts: Object.fromEntries(Object.entries(row.texts).map(([id, text]) => [id, text.replaceAll("\u00a0", " ")])) as SiteRow["texts"] }));
const rows = plain(makeRows(surveyed, new Map([["C", "The Terrace"]]), "ft-in", today));
const rowOf = (id: string): SiteRow => rows.find((row) => row.id === id)!;
const stateOf = (query: string): TableState => readTableState(Object.fromEntries(new URLSearchParams(query)));

/** The least a site is, with what a test adds. */
const bare = (more: object) => surveyedSite({ id: "x1", entry: "back-in", pad: { outline: [[0, -1500], [9000, -1500], [9000, 1500], [0, 1500]] }, ground: { along: 0, across: 0 }, ...more });
const bareRow = (more: object, units: "ft-in" | "metric" = "ft-in") => plain(makeRows([bare(more)], new Map(), units, today))[0]!;

describe("what a site shows in its columns", () => {
  test("a terrace site, in feet and inches", () => {
    expect(rowOf("c07").texts).toMatchObject({
      site: "C-07", loop: "C", entry: "back-in", surface: "gravel", "pad-length": "47 ft 11 in", "pad-width": "18 ft 8 1/2 in",
      "slope-along": "falls toward the back 1.9 %", "slope-across": "rises to the left 0.4 %", power: "50, 30, 20 A", water: "51 psi", sewer: "yes",
      "max-length": "42 ft", guests: "6", vehicles: "2", pets: "allowed", tents: "1", accessible: "no", measured: "May 2, 2026, 6 months ago",
    });
  });

  test("the same in meters", () => {
    const metric = plain(makeRows(surveyed.filter(({ site }) => site.id === "c07"), new Map(), "metric", today))[0]!;
    expect(metric.texts).toMatchObject({ "pad-length": "14.60 m", water: "350 kPa" });
    expect(metric.values).toEqual(rowOf("c07").values);
  });

  test("a dead post, no post, a rinse tap alone and an accessible site say what they are", () => {
    expect(rowOf("e05").texts.power).toBe("post, no receptacle");
    expect(rowOf("e03").texts.power).toBe("none");
    expect(rowOf("b15").texts.water).toBe("rinse only");
    expect(rowOf("d01").texts.accessible).toBe("accessible");
    expect(rows.filter((row) => row.accessible).map((row) => row.id)).toEqual(["d01", "d02", "d12", "e10"]);
  });

  test("slopes name the side that is high, and a level pad says so", () => {
    expect(bareRow({ ground: { along: 1.25, across: -2 } }).texts).toMatchObject({ "slope-along": "rises toward the back 1.3 %", "slope-across": "rises to the right 2.0 %" });
    expect(bareRow({}).texts).toMatchObject({ "slope-along": "level", "slope-across": "level" });
  });

  test("rules that are not on record are told as none, and come last either way", () => {
    const row = bareRow({});
    expect(row.texts).toMatchObject({ "max-length": "not posted", guests: "no rule", pets: "no rule", tents: "no rule" });
    expect(row.values["max-length"]).toBeUndefined();
    expect(row.pets).toBe(true);
    expect(bareRow({ rules: { pets: false, tents: 0 } }).texts).toMatchObject({ pets: "not allowed", tents: "none" });
  });

  test("a survey is due when it was never made, has an unreadable date or is older than two years", () => {
    expect(bareRow({})).toMatchObject({ due: true, texts: { measured: "never measured" } });
    expect(bareRow({ measuredOn: "last spring" })).toMatchObject({ due: true });
    expect(bareRow({ measuredOn: "2024-11-24" })).toMatchObject({ due: true });
    expect(bareRow({ measuredOn: "2024-11-25" })).toMatchObject({ due: false, texts: { measured: "Nov 25, 2024, 2 years ago" } });
    expect(rows.some((row) => row.due)).toBe(false);
  });
});

describe("order and filters", () => {
  const ids = (query: string) => arrange(rows, stateOf(query)).map((row) => row.id);

  test("the park's own order where none is asked for", () => expect(ids("")).toEqual(rows.map((row) => row.id)));

  test("every column sorts both ways, equal rows keep the park's order, what is not known comes last", () => {
    for (const column of siteColumns) {
      for (const sign of ["", "-"]) {
        const sorted = arrange(rows, stateOf(`sort=${sign}${column}`));
        expect(sorted).toHaveLength(rows.length);
        sorted.slice(1).forEach((row, i) => {
          const a = sorted[i]!.values[column], b = row.values[column];
          if (a === undefined) return expect(b, column).toBeUndefined();
          if (b === undefined) return;
          const order = typeof a === "number" && typeof b === "number" ? a - b : String(a).localeCompare(String(b), "en", { numeric: true });
          expect(sign === "" ? order : -order, `${column} ${sorted[i]!.id} ${row.id}`).toBeLessThanOrEqual(0);
          if (order === 0) expect(rows.indexOf(sorted[i]!)).toBeLessThan(rows.indexOf(row));
        });
      }
    }
  });

  test("a site never measured comes before the oldest survey", () => {
    const some = makeRows([bare({ id: "new", measuredOn: "2026-01-01" }), bare({ id: "never" }), bare({ id: "old", measuredOn: "2020-01-01" })], new Map(), "ft-in", today);
    expect(arrange(some, stateOf("sort=measured")).map((row) => row.id)).toEqual(["never", "old", "new"]);
  });

  test("labels are put in order as a person counts", () => {
    const some = makeRows(["A-10", "A-2", "A-1"].map((label, i) => bare({ id: `s${i}`, label })), new Map(), "ft-in", today);
    expect(arrange(some, stateOf("sort=site")).map((row) => row.label)).toEqual(["A-1", "A-2", "A-10"]);
  });

  test("each filter leaves exactly the sites it names", () => {
    expect(ids("loop=E")).toHaveLength(12);
    expect(ids("entry=pull-through")).toHaveLength(16);
    expect(ids("accessible=1")).toHaveLength(4);
    const kept = (test: (site: (typeof surveyed)[number]["site"]) => boolean) => surveyed.filter(({ site }) => test(site)).map(({ site }) => site.id);
    expect(ids("power50=1")).toEqual(kept((site) => site.hookups.some((h) => h.receptacles?.includes(50))));
    expect(ids("sewer=1")).toEqual(kept((site) => site.hookups.some((h) => h.kind === "sewer")));
    expect(ids("pets=1")).toEqual(kept((site) => site.rules?.pets !== false));
    expect(ids("sewer=1&loop=A").length).toBeLessThan(ids("loop=A").length);
  });

  test("the text finds a label, a loop or its name, each word anywhere, in small letters or large", () => {
    expect(ids("q=c-07")).toEqual(["c07"]);
    expect(ids("q=TERRACE 07")).toEqual(["c07"]);
    expect(ids("q=terrace")).toHaveLength(14);
    expect(ids("q=no such words")).toEqual([]);
    expect(isLeft(rowOf("a01"), { ...stateOf(""), text: "   " })).toBe(true);
  });
});

describe("the address", () => {
  test("says nothing of the table as it comes", () => {
    expect(writeTableState(stateOf(""))).toBe("");
    expect(stateOf("").columns).toEqual(usualColumns);
  });

  test("keeps everything, and means the same when read again", () => {
    const query = "q=terrace+1&loop=C&entry=back-in&power50=1&sewer=1&accessible=1&pets=1&sort=-pad-length&show=site,power,measured";
    expect(writeTableState(stateOf(query))).toBe(query);
  });

  test("reads what a form sends without script: empty fields, boxes, columns one by one, the last of two sorts", () => {
    const state = readTableState({ q: "", loop: "", entry: "", show: ["site", "power", "entry"], sort: ["site", "-power"] });
    expect(state).toEqual({ ...noFilters, sort: { column: "power", descending: true }, columns: ["site", "entry", "power"] });
  });

  test("passes over what it cannot read", () => {
    expect(stateOf("entry=sideways&sort=nothing&show=nothing&power50=yes")).toEqual(stateOf(""));
    expect(readTableState({ q: "x".repeat(500) }).text).toHaveLength(80);
  });

  test("a heading sorts least first, then back and forth", () => {
    const first = nextSort(stateOf(""), "pad-length");
    expect(first).toEqual({ column: "pad-length", descending: false });
    const second = nextSort({ ...stateOf(""), sort: first }, "pad-length");
    expect(second.descending).toBe(true);
    expect(nextSort({ ...stateOf(""), sort: second }, "pad-length").descending).toBe(false);
    expect(nextSort({ ...stateOf(""), sort: second }, "power")).toEqual({ column: "power", descending: false });
  });
});
