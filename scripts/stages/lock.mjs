import { execFileSync } from "node:child_process";
import { linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { stopIfInterrupted } from "./programs.mjs";

/**
 * Takes the lock at `file` for this process. Returns `{ update, release, left }`, or `{ holder }`, what the process
 * that has it noted there. The lock of a process that is gone, killed outright even, counts for nothing: what it had
 * noted is `left`.
 */
export function takeLock(file, note = {}) {
  mkdirSync(path.dirname(file), { recursive: true });
  const me = { pid: process.pid, began: beginningOf(process.pid) };
  const mine = `${file}.${process.pid}`;
  const put = (more) => writeFileSync(mine, JSON.stringify({ ...me, ...note, ...more }), { mode: 0o600 });
  let left = null;
  for (let attempt = 0; attempt < 50; attempt += 1) {
    put({});
    try {
      // A link appears whole or not at all: nobody reads half a note.
      linkSync(mine, file);
      rmSync(mine);
      return { ...held(file, mine, put), left };
    } catch (error) {
      rmSync(mine, { force: true });
      if (error.code !== "EEXIST") throw error;
    }
    const holder = read(file);
    if (holder && isRunning(holder)) return { holder };
    if (!holder) continue;
    left = holder;
    removeStale(file, holder);
  }
  throw new Error(`the lock ${file} cannot be taken`);
}

/** Takes the lock at `file`, waiting for whoever has it. `say` is told once of the wait. */
export async function waitForLock(file, say) {
  for (let told = false; ; told = true) {
    const lock = takeLock(file);
    if (!lock.holder) return lock;
    if (!told) say(`waiting for another Padwright command (process ${lock.holder.pid})`);
    await sleep(200);
    stopIfInterrupted();
  }
}

function held(file, mine, put) {
  return {
    update(more) {
      put(more);
      renameSync(mine, file);
    },
    release: () => rmSync(file, { force: true }),
  };
}

function read(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8"));
  } catch (error) {
    return error.code === "ENOENT" ? null : {};
  }
}

/** Whether the process noted as `{ pid, began }` still runs, and not another one of its number. */
export function isRunning({ pid, began }) {
  if (!Number.isInteger(pid)) return false;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if (error.code !== "EPERM") return false;
  }
  return beginningOf(pid) === began;
}

/** Two may find the same stale lock: the one that moves it away must have moved that one, and not the other's new one. */
function removeStale(file, holder) {
  const aside = `${file}.stale.${process.pid}`;
  try {
    renameSync(file, aside);
  } catch {
    return;
  }
  const moved = read(aside);
  if (moved && moved.pid !== holder.pid && isRunning(moved)) {
    try {
      linkSync(aside, file);
    } catch {
      // Someone else has taken it since; they will see that it is held.
    }
  }
  rmSync(aside, { force: true });
}

/** When a process began, so that another one given the same number later is not taken for it. */
export function beginningOf(pid) {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").replace(/^.*\) /s, "").split(" ");
    return `${readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim()} ${fields[19]}`;
  } catch {
    try {
      return execFileSync("ps", ["-o", "lstart=", "-p", String(pid)], { encoding: "utf8", stdio: "pipe" }).trim();
    } catch {
      return "";
    }
  }
}
