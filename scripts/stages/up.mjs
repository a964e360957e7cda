import { rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Fault, Interrupted, explain, lineOf } from "./fault.mjs";
import { takeLock } from "./lock.mjs";
import { interruptPrograms, stopIfInterrupted } from "./programs.mjs";
import { progressOn } from "./progress.mjs";
import { root } from "./root.mjs";
import { choosePort, startServer } from "./server.mjs";
import { setUp } from "./setup.mjs";

const usage = `Usage: npm run up [-- options]
  --empty      start without the demo park
  --throwaway  a database of its own that is gone when this is stopped
  --dev        for working on Padwright: pages follow their source as it is edited
Settings, from the environment:
  PORT, HOST (3000, 127.0.0.1), DATABASE_URL (else an embedded PostgreSQL), PADWRIGHT_DATA (.data)`;

const exitCodes = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 };

/** `npm run up`: from a fresh clone to the running application, until it is told to stop. */
export async function up(args) {
  process.chdir(root);
  const progress = progressOn(process.stdout);
  const undo = [];
  const stopped = whenToldToStop(() => undoAll(undo, true));
  let code = 0;
  try {
    const options = readOptions(args);
    await start(options, progress, undo);
    // From here on being told to stop is how this ends, and no failure.
    const end = await Promise.race([stopped.then(() => null), ...undo.map(({ ended }) => ended).filter(Boolean)]);
    if (end) throw new Fault(end);
    progress.say("\n  Stopping …");
  } catch (error) {
    code = error instanceof Interrupted ? exitCodes[stopped.signal] : 1;
    if (!(error instanceof Interrupted)) console.error(`\n${lineOf(error)}`);
  }
  try {
    await undoAll(undo);
    if (code === 0) progress.say("  Stopped.");
  } catch (error) {
    console.error(lineOf(error));
    code = 1;
  }
  process.exit(code);
}

function readOptions(args) {
  const known = ["--empty", "--throwaway", "--dev", "--help"];
  const strange = args.find((arg) => !known.includes(arg));
  if (strange || args.includes("--help")) {
    console[strange ? "error" : "log"](strange ? `There is no option ${strange}.\n${usage}` : usage);
    process.exit(strange ? 2 : 0);
  }
  const has = (name) => args.includes(name);
  return { empty: has("--empty"), throwaway: has("--throwaway"), dev: has("--dev") };
}

/** Resolves at the first signal; at the second everything is dropped at once. */
function whenToldToStop(dropAll) {
  let tell;
  const stopped = new Promise((resolve) => (tell = resolve));
  const onSignal = (signal) => {
    if (stopped.signal) {
      void dropAll();
      process.exit(exitCodes[signal]);
    }
    stopped.signal = signal;
    interruptPrograms();
    tell(signal);
  };
  for (const signal of Object.keys(exitCodes)) process.on(signal, onSignal);
  watchNpm(() => stopped.signal || onSignal("SIGTERM"));
  return stopped;
}

/** Whoever stops `npm run up` by a signal to npm reaches npm alone, which goes without a word: then this goes too. */
function watchNpm(onGone) {
  if (!["up", "dev"].includes(process.env.npm_lifecycle_event)) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    onGone();
  }, 300);
  watch.unref();
}

async function start({ empty, throwaway, dev }, progress, undo) {
  const { step, say } = progress;
  say(`Padwright\n`);
  // Without the settings' own parser, which the packages bring: only where the lock lies has to be known first.
  const data = path.resolve(process.env.PADWRIGHT_DATA || ".data");
  const ownData = !throwaway && !process.env.DATABASE_URL;
  const lock = ownData ? lockData(data) : null;
  if (lock) undo.push({ stop: () => lock.release() });

  await setUp(progress, { build: !dev });
  const { register } = await import("tsx/esm/api");
  register();
  const { parseEnvironment } = await import("../../lib/store/environment.ts");
  const settings = parseEnvironment(process.env);
  const port = await choosePort(settings, say);
  let database;
  await step("database", "starting", async (show) => {
    database = await openDatabase(settings, throwaway, undo, show);
    return database.description;
  });
  await step("tables", "bringing up to date", async () => migrate(database.url));
  if (!empty) await step("demo", "looking for parks", async () => loadDemo(database.url));
  if (ownData) noteConnection(data, database.url, undo);
  stopIfInterrupted();
  await step("server", "starting", async () => {
    const server = await startServer({ ...settings, PORT: port, DATABASE_URL: database.url, dev });
    undo.push(server);
    return "answering";
  });
  stopIfInterrupted();
  const address = `http://${settings.HOST === "127.0.0.1" || settings.HOST === "0.0.0.0" ? "localhost" : settings.HOST}:${port}`;
  lock?.update({ address });
  say(`\n  ${address}\n`);
  for (const { park, token } of await firstManagers(database.url)) {
    say(`  ${park} has no manager yet. Whoever opens this link first becomes one (good for 24 hours):\n  ${address}/join/${token}\n`);
  }
  say("  Ctrl-C stops it.");
}

function lockData(data) {
  let lock;
  try {
    lock = takeLock(path.join(data, "lock"));
  } catch (error) {
    if (["EEXIST", "ENOTDIR"].includes(error.code)) throw new Fault(`${data} is not a folder: set PADWRIGHT_DATA to one.`);
    throw explain(`The data folder ${data} cannot be used`, `${error.code} ${error.message}`) ?? error;
  }
  if (!lock.holder) return lock;
  const { pid, address } = lock.holder;
  throw new Fault(`Padwright is already running on ${data}${address ? ` at ${address}` : ""} (process ${pid}). Use that one, stop it first, or set PADWRIGHT_DATA to another folder.`);
}

async function openDatabase(settings, throwaway, undo, show) {
  const { openDatabase: open, openThrowaway } = await import("../../lib/store/open-database.ts");
  const database = throwaway ? await openThrowaway(settings.DATABASE_URL) : await open(settings, show);
  undo.push({ stop: () => database.close(), ended: database.ended });
  stopIfInterrupted();
  return database;
}

async function migrate(url) {
  const { migrate: run } = await import("../../lib/store/migrate.ts");
  const applied = await run(url);
  stopIfInterrupted();
  return applied.length === 0 ? "up to date" : `${applied.length} migration${applied.length === 1 ? "" : "s"} applied`;
}

async function loadDemo(url) {
  const { loadDemo: load } = await import("../../lib/store/load-demo.ts");
  const park = await load(url);
  stopIfInterrupted();
  return park ? `${park.name} loaded: ${park.sites} sites, ${park.rigs} rigs` : null;
}

/** For each park without a manager, a link by which one can join. Made anew at each start. */
async function firstManagers(url) {
  process.env.DATABASE_URL ||= url;
  const { linksForFirstManagers } = await import("../../lib/store/accounts/links.ts");
  const { disconnect } = await import("../../lib/store/client.ts");
  try {
    return await linksForFirstManagers();
  } finally {
    await disconnect();
  }
}

/** So that the command line finds the database while it runs. The address holds the password: for the owner's eyes only. */
function noteConnection(data, url, undo) {
  const note = path.join(data, "connection");
  rmSync(note, { force: true });
  writeFileSync(note, `${url}\n`, { mode: 0o600 });
  undo.push({ stop: () => rmSync(note, { force: true }) });
}

/** Undoes what was begun, last first; with `atOnce` without waiting. */
async function undoAll(undo, atOnce = false) {
  for (const { stop, drop } of undo.splice(0).reverse()) {
    if (atOnce) drop?.();
    else await stop();
  }
}
