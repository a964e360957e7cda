import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync } from "node:fs";
import path from "node:path";
import { Fault } from "./fault.mjs";
import { runNode, runProgram } from "./programs.mjs";

const usualNames = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const usualPlaces = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];
/** What Playwright may take for its download: a network that swallows requests must not hold the tests up for long. */
const downloadLimit = 300_000;

/**
 * The browser for the browser tests: the one PADWRIGHT_CHROMIUM names, one that is there, Playwright's own, or
 * Debian's, installed where that may be. Never none: without one it throws, naming the command that brings one.
 */
export async function findBrowser(say) {
  const named = process.env.PADWRIGHT_CHROMIUM;
  if (named) {
    if (runs(named)) return named;
    throw new Fault(`PADWRIGHT_CHROMIUM names ${named}, which does not run: correct it, or unset it to have a browser found.`);
  }
  return installed() ?? (await playwrightsOwn(say)) ?? (await debians(say)) ?? refuse();
}

function installed() {
  const folders = [...(process.env.PATH ?? "").split(path.delimiter), "/usr/bin"];
  const candidates = [...folders.flatMap((folder) => usualNames.map((name) => path.join(folder, name))), ...usualPlaces];
  return candidates.find((file) => existsSync(file) && runs(file)) ?? null;
}

async function playwrightsOwn(say) {
  const { chromium } = await import("@playwright/test");
  if (runs(chromium.executablePath())) return chromium.executablePath();
  say("asking Playwright for its browser");
  const env = { ...process.env, PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: "20000" };
  await runNode(["node_modules/@playwright/test/cli.js", "install", "--no-shell", "chromium"], { env, limit: downloadLimit });
  return runs(chromium.executablePath()) ? chromium.executablePath() : null;
}

async function debians(say) {
  if (process.getuid?.() !== 0 || !existsSync("/usr/bin/apt-get")) return null;
  say("installing Debian's chromium");
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  await runProgram("apt-get", ["update", "-q"], { env });
  const { output } = await runProgram("apt-get", ["install", "-y", "-q", "--no-install-recommends", "chromium"], { env });
  const found = installed();
  if (!found) console.error(output.trim().split("\n").slice(-5).join("\n"));
  return found;
}

function refuse() {
  throw new Fault("No browser for the browser tests: an administrator runs `apt-get install chromium` (or set PADWRIGHT_CHROMIUM to a Chromium or Chrome).");
}

/** Whether it is there and starts: a browser without its libraries is none. */
function runs(file) {
  try {
    accessSync(file, constants.X_OK);
  } catch {
    return false;
  }
  return spawnSync(file, ["--version"], { stdio: "ignore", timeout: 20_000 }).status === 0;
}
