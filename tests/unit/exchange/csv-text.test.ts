import { describe, expect, it } from "vitest";
import { bounds, guard, pageLimits, readCsv, unguard, writeCsv } from "@/lib/exchange";

const read = (text: string) => readCsv(text, pageLimits);
const cells = (text: string) => { const made = read(text); return made.ok ? [made.table.header, ...made.table.rows.map((one) => one.cells)] : made; };

describe("a table as spreadsheets write it", () => {
  it.each([
    ["commas and LF", "id,b\na,1\n"], ["CR and LF", "id,b\r\na,1\r\n"], ["CR alone", "id,b\ra,1\r"], ["no line end at the end", "id,b\na,1"], ["semicolons", "id;b\na;1\n"], ["tabs", "id\tb\na\t1\n"],
    ["a byte order mark", "\uFEFFid,b\na,1\n"], ["a line that says what parts the cells", "sep=;\nid;b\na;1\n"], ["blanks around", " id , b \n a , 1 \n"], ["quotes where none are needed", '"id","b"\n"a","1"\n'],
    ["blank rows among and below", "\n\nid,b\n,\n\na,1\n,\n,\n\n\n"],
  ])("is read with %s", (_, text) => expect(cells(text)).toEqual([["id", "b"], ["a", "1"]]));

  it("counts rows as a spreadsheet shows them, blank ones and lines within a cell included", () => {
    const made = read('\nid,b\n"a\nx",1\n\nc,2\n');
    expect(made.ok && made.table.rows.map(({ row }) => row)).toEqual([3, 5]);
  });

  it("keeps what parts cells and lines, and doubled quotes, within quotes", () => {
    expect(cells('id,b\n"a, ""b"", c","x\r\ny"\n')).toEqual([["id", "b"], ['a, "b", c', "x\r\ny"]]);
  });

  it("takes inch marks in a cell without quotes for what they are", () => {
    expect(cells(`id,b\na,34' 6"\n`)).toEqual([["id", "b"], ["a", `34' 6"`]]);
  });

  it("knows a comma for a decimal one only where semicolons part the cells", () => {
    const semicolons = read("id;b\na;7,5\n"), commas = read('id,b\na,"7,5"\n');
    expect([semicolons.ok && semicolons.table.decimalComma, commas.ok && commas.table.decimalComma]).toEqual([true, false]);
  });

  it.each([
    ["a quote never closed", 'id,b\na,"x\n', { code: "quote-open", row: 2 }],
    ["text behind a quoted cell", 'id,b\na,"x"y\n', { code: "quotes", row: 2 }],
    ["nothing but blank rows", ",\n,\n", { code: "no-header" }],
  ])("refuses %s, with its row", (_, text, fault) => expect(read(text)).toMatchObject({ ok: false, ...fault }));
});

describe("a table made to do harm", () => {
  it.each([
    ["ten million commas", ",".repeat(10_000_000), "too-many-columns"],
    ["ten million lines", `id\n${"\n".repeat(10_000_000)}a`, "too-many-rows"],
    ["one row too many", `id\n${"a\n".repeat(bounds.rows + 1)}`, "too-many-rows"],
    ["a cell of ten million characters", `id\n${"a".repeat(10_000_000)}`, "cell-too-long"],
    ["a quote opened before ten million lines", `id\n"${"a\n".repeat(5_000_000)}`, "quote-open"],
    ["five million quotes", `id\n${'"'.repeat(5_000_001)}`, "quote-open"],
  ])("is refused: %s", (_, text, code) => expect(read(text)).toMatchObject({ ok: false, code }));

  it("of as many rows as may be is read", () => {
    const made = read(`id\n${"a\n".repeat(bounds.rows)}`);
    expect(made.ok && made.table.rows.length).toBe(bounds.rows);
  });

  it("with thousands of blank rows below its own is read", () => expect(read(`id\na\n${",\n".repeat(30_000)}`)).toMatchObject({ ok: true, table: { rows: [{ cells: ["a"] }] } }));
});

describe("a cell that a spreadsheet would run", () => {
  it.each(["=1+1", "+1", "-A1", "@SUM(A1)", "\tx", "\rx", "\nx", "'x", "''", "＝1"])("is made safe and read back the same: %j", (text) => {
    expect(guard(text)).toBe(`'${text}`);
    expect(unguard(guard(text))).toBe(text);
  });

  it.each(["plain", "a=b", "3-4", "", "it's", "'tis"])("is none: %j", (text) => expect(unguard(guard(text))).toBe(text));

  it("comes back through a file", () => {
    const texts = ["=HYPERLINK(\"x\")", "-2+3", "'quoted'", "a,b;c\"d"], made = read(writeCsv(["id"], texts.map((text) => [guard(text)])));
    expect(made.ok && made.table.rows.map((one) => unguard(one.cells[0]!))).toEqual(texts);
  });
});
