import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { Fault, Interrupted, explain, lineOf } from "./fault.mjs";
import { takeLock } from "./lock.mjs";
import { interruptPrograms, stopIfInterrupted } from "./programs.mjs";
import { makeReady, runTypeScript, spawnTypeScript } from "./run.mjs";

/**
 * Runs a TypeScript file of this clone with a database in its environment: the server at DATABASE_URL, else the
 * embedded one, found running or started on the data folder for as long as the command takes. With `--kept` first, a
 * data folder that nothing was ever kept in is refused instead of made.
 */
export async function runWithDatabase(args) {
  const kept = args[0] === "--kept";
  const [file, ...rest] = kept ? args.slice(1) : args;
  if (process.env.DATABASE_URL || rest.some((arg) => arg === "--help" || arg === "-h")) return runTypeScript([file, ...rest]);
  await makeReady();
  const undo = [];
  let code = 1;
  // A server that is just being started is waited for and stopped in order.
  for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, interruptPrograms);
  try {
    const url = await findDatabase(kept, undo);
    stopIfInterrupted();
    code = await spawnTypeScript([file, ...rest], { DATABASE_URL: url });
  } catch (error) {
    if (error instanceof Interrupted) code = 130;
    else console.error(lineOf(error));
  } finally {
    for (const stop of undo.reverse()) await stop();
  }
  process.exit(code);
}

/** The address of the embedded database of the data folder. What was started for it is stopped by `undo`. */
async function findDatabase(kept, undo) {
  const data = path.resolve(process.env.PADWRIGHT_DATA || ".data");
  if (kept && !existsSync(path.join(data, "password"))) throw new Fault(`There is no database in ${data}. Set PADWRIGHT_DATA to the folder it is in, or DATABASE_URL to its address.`);
  const lock = lockData(data);
  if (lock.holder) return connectionOf(data, lock.holder);
  undo.push(() => lock.release());
  const { register } = await import("tsx/esm/api");
  register();
  const { openDatabase } = await import("../../lib/store/open-database.ts");
  const database = await openDatabase({ PADWRIGHT_DATA: data });
  undo.push(() => database.close());
  return database.url;
}

function lockData(data) {
  try {
    return takeLock(path.join(data, "lock"));
  } catch (error) {
    throw explain(`The data folder ${data} cannot be used`, `${error.code} ${error.message}`) ?? error;
  }
}

/** What `npm run up` noted for the command line once its database answered. */
function connectionOf(data, { pid }) {
  try {
    return readFileSync(path.join(data, "connection"), "utf8").trim();
  } catch {
    throw new Fault(`Padwright is being started or stopped on ${data} (process ${pid}): try again in a moment.`);
  }
}
