import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { ESLint, Linter } from "eslint";
import { afterEach, beforeEach, describe, expect, it } from "vitest";

/** The rule of the rooms is only worth something while it refuses what it should: each case breaks it on purpose. */

let house: string;

beforeEach(() => {
  house = mkdtempSync(path.join(tmpdir(), "padwright-rooms-"));
  for (const name of ["tsconfig.json", "package.json"]) cpSync(name, path.join(house, name));
  for (const name of ["zod", "react", "postgres"]) {
    write(`node_modules/${name}/package.json`, JSON.stringify({ name, version: "1.0.0", main: "index.js" }));
    write(`node_modules/${name}/index.js`, "module.exports = {};\n");
  }
});

afterEach(() => rmSync(house, { recursive: true, force: true }));

function write(name: string, text: string): void {
  mkdirSync(path.join(house, path.dirname(name)), { recursive: true });
  writeFileSync(path.join(house, name), text);
}

/** The names of the rules that a house of these files breaks. */
function broken(files: Record<string, string>): string[] {
  for (const [name, text] of Object.entries(files)) write(name, text);
  const run = spawnSync(
    process.execPath,
    [path.resolve("node_modules/dependency-cruiser/bin/dependency-cruise.mjs"), "--config", path.resolve(".dependency-cruiser.mjs"), "--output-type", "json", "lib"],
    { cwd: house, encoding: "utf8", maxBuffer: 100_000_000 },
  );
  const report = JSON.parse(run.stdout) as { summary: { violations: { rule: { name: string } }[] } };
  return [...new Set(report.summary.violations.map(({ rule }) => rule.name))].sort();
}

const something = "export const something = 1;\n";

describe("the order of the rooms", () => {
  it("lets a room import the rooms before it", () => {
    expect(broken({ "lib/measure/a.ts": something, "lib/fit/b.ts": 'export * from "@/lib/measure/a";\n' })).toEqual([]);
  });

  it("refuses an import against the order, types included", () => {
    expect(broken({ "lib/measure/a.ts": 'export type { B } from "@/lib/fit/b";\n', "lib/fit/b.ts": "export type B = 1;\n" })).toEqual(["room-order-measure"]);
  });

  it("refuses sentences in the store and the store in a pure room", () => {
    expect(
      broken({ "lib/wording/a.ts": something, "lib/store/b.ts": 'export * from "@/lib/wording/a";\n', "lib/fit/c.ts": 'export * from "@/lib/store/b";\n' }),
    ).toEqual(["room-order-fit", "room-order-store"]);
  });

  it("refuses rings", () => {
    expect(broken({ "lib/park/a.ts": 'export * from "./b";\n', "lib/park/b.ts": 'export * from "./a";\n' })).toEqual(["no-cycles"]);
  });

  it("refuses Node, a framework or a database in a pure room, and lets zod in", () => {
    expect(broken({ "lib/park/a.ts": 'export { z } from "zod";\n' })).toEqual([]);
    for (const name of ["node:fs", "react", "postgres"]) expect(broken({ "lib/park/a.ts": `export * from "${name}";\n` }), name).toEqual(["pure-rooms"]);
  });

  it("refuses a folder of lib/ that has no place in the order", () => {
    expect(broken({ "lib/measure/a.ts": something, "lib/helpers/b.ts": 'export * from "@/lib/measure/a";\n' })).toContain("known-rooms");
  });

  it("refuses an import of what is not there", () => {
    expect(broken({ "lib/store/a.ts": 'export * from "./nowhere";\n' })).toEqual(["resolvable"]);
  });
});

describe("the purity of a pure room", () => {
  async function complaints(file: string, text: string): Promise<string[]> {
    const config = (await new ESLint().calculateConfigForFile(file)) as { rules: Linter.RulesRecord };
    const rules = Object.fromEntries(Object.entries(config.rules).filter(([name]) => /^no-restricted-(globals|syntax)$/.test(name)));
    return new Linter().verify(text, [{ rules, languageOptions: { ecmaVersion: 2022, sourceType: "module" } }]).map(({ ruleId }) => ruleId ?? "");
  }

  it.each(["Date.now()", "new Date()", "performance.now()", "process.env.HOME", "crypto.randomUUID()", "fetch('/')", "globalThis.x"])("refuses %s", async (code) => {
    expect(await complaints("lib/fit/some.ts", `export const x = () => ${code};`)).toContain("no-restricted-globals");
  });

  it.each(["Math.random()", "Math['random']()", "import('zod')"])("refuses %s", async (code) => {
    expect(await complaints("lib/fit/some.ts", `export const x = () => ${code};`)).toContain("no-restricted-syntax");
  });

  it("lets the outer rooms do so", async () => {
    expect(await complaints("lib/store/some.ts", "export const x = () => Date.now() + Math.random();")).toEqual([]);
  });
});
