import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { lineOf } from "./fault.mjs";
import { findBrowser } from "./browser.mjs";
import { buildApplication } from "./build.mjs";
import { interruptPrograms, runNode } from "./programs.mjs";
import { progressOn } from "./progress.mjs";
import { listOf, tallyOfBrowser, tallyOfTests } from "./report.mjs";
import { inRoot, root } from "./root.mjs";
import { setUp } from "./setup.mjs";

const results = inRoot("test-results");
const eslint = ["node_modules/eslint/bin/eslint.js", "--max-warnings", "0", "."];
const depcruise = ["node_modules/dependency-cruiser/bin/dependency-cruise.mjs", "--config", ".dependency-cruiser.mjs"];
const next = "node_modules/next/dist/bin/next";
/** How many tests may pass only at their second try before the gate fails for it: all are named. */
const secondTries = 3;
const quiet = { ...process.env, NEXT_TELEMETRY_DISABLED: "1" };

/**
 * `npm test`, the whole gate, or with `quick` the part that needs neither database, build nor browser. Every stage
 * runs, whatever the ones before it found; what failed is told once more at the end, and the last line is the total. A
 * stage that finds a fault without being made of tests (lint, types, build) counts as one failed, and so do more tests
 * that passed only at their second try than are let pass.
 */
export async function test(args) {
  process.chdir(root);
  const strange = args.find((arg) => arg !== "quick");
  if (strange) {
    console.error(`There is no option ${strange}. Usage: npm test, npm run check`);
    process.exit(2);
  }
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, interruptPrograms);
  const total = { passed: 0, failed: 0, skipped: 0, faults: [], again: [] };
  try {
    await runStages(args.includes("quick"), progressOn(process.stdout), total);
  } catch (error) {
    if (error.name === "Interrupted") process.exit(130);
    console.error(`\n${lineOf(error)}`);
    total.failed += 1;
  }
  if (total.again.length > 0) console.log(listOf("\nPassed only at the second try, to be looked into:", total.again));
  if (total.again.length > secondTries) add(total, { failed: 1, faults: [{ name: `More than ${secondTries} tests passed only at the second try.`, said: [] }] });
  if (total.faults.length > 0) console.log(listOf("\nFailed:", total.faults));
  if (total.passed + total.failed === 0) console.error("No test was run.");
  console.log(`\n${total.passed} passed, ${total.failed} failed${total.skipped ? `, ${total.skipped} skipped` : ""}`);
  process.exit(total.failed === 0 && total.passed > 0 ? 0 : 1);
}

async function runStages(quick, progress, total) {
  rmSync(results, { recursive: true, force: true });
  mkdirSync(results, { recursive: true });
  await setUp(progress);
  // Asked for before an hour of tests, not after.
  const browser = quick ? null : await browserStep(progress);
  const stage = stageRunner(total);

  await stage("lint", async () => (await ends(eslint)) && ends([...depcruise, "app", "lib", "proxy.ts"].filter((name) => name !== "app" || existsSync(inRoot("app")))));
  await stage("types", async () => (await ends([next, "typegen"], { hide: true })) && ends(["node_modules/typescript/bin/tsc", "--noEmit"]));
  for (const project of ["unit", "laws", "reference", ...(quick ? [] : ["store"])]) await stage(project, () => vitest(project, total));
  if (quick) return;
  const built = await stage("build", async () => Boolean(await progress.step("build", "looking at the build", buildApplication)));
  if (built) await stage("crash", () => vitest("crash", total));
  if (built) await stage("browser", () => playwright(browser, total));
}

/** Runs one stage; a fault of its own counts as one failed. */
function stageRunner(total) {
  return async (name, work) => {
    console.log(`\n—— ${name}`);
    const began = performance.now();
    const before = total.failed;
    let good = false;
    try {
      good = await work();
    } catch (error) {
      if (error.name === "Interrupted") throw error;
      console.error(lineOf(error));
    }
    if (!good && total.failed === before) add(total, { failed: 1, faults: [{ name, said: [] }] });
    console.log(`   ${name} ${good ? "good" : "FAILED"} after ${((performance.now() - began) / 1000).toFixed(1)} s`);
    return good;
  };
}

async function browserStep({ step }) {
  let browser;
  await step("browser", "looking for one", async (show) => {
    browser = await findBrowser(show);
    return browser;
  });
  return browser;
}

/** Whether a checker ends without a fault. */
async function ends(args, { hide = false } = {}) {
  const { code, output } = await runNode(args, { env: quiet, show: !hide });
  if (code !== 0 && hide) console.error(output);
  return code === 0;
}

async function vitest(project, total) {
  const file = inRoot("test-results", `${project}.json`);
  const { code } = await runNode(
    ["node_modules/vitest/vitest.mjs", "run", "--project", project, "--reporter=default", "--reporter=json", `--outputFile.json=${file}`],
    { env: process.env, show: true },
  );
  if (!existsSync(file)) return false;
  add(total, tallyOfTests(JSON.parse(readFileSync(file, "utf8"))));
  return code === 0;
}

async function playwright(browser, total) {
  const file = inRoot("test-results", "browser.json");
  const { code } = await runNode(["node_modules/@playwright/test/cli.js", "test", "--reporter=list,json"], {
    env: { ...process.env, PADWRIGHT_CHROMIUM: browser, PLAYWRIGHT_JSON_OUTPUT_NAME: file },
    show: true,
  });
  if (!existsSync(file)) return false;
  add(total, tallyOfBrowser(JSON.parse(readFileSync(file, "utf8"))));
  return code === 0;
}

function add(total, { passed = 0, failed = 0, skipped = 0, faults = [], again = [] }) {
  total.passed += passed;
  total.failed += failed;
  total.skipped += skipped;
  total.faults.push(...faults);
  total.again.push(...again);
}
