import { execFileSync } from "node:child_process";
import { readFileSync, readlinkSync, realpathSync } from "node:fs";
import { setTimeout as sleep } from "node:timers/promises";

/** Whether a process of this number is there, whoever it belongs to. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return !isZombie(pid);
  } catch (error) {
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}

/** Whether process `pid` is a PostgreSQL server on `cluster`, and not another process that has been given its number. */
export function servesCluster(pid: number, cluster: string): boolean {
  try {
    // A PostgreSQL server's working directory is its data directory.
    return realpathSync(readlinkSync(`/proc/${pid}/cwd`)) === realpathSync(cluster) && /postgres/.test(commandOf(pid));
  } catch {
    return commandOf(pid).includes(cluster);
  }
}

/** Waits until `pid` is gone; false where it is still there after `milliseconds`. */
export async function waitUntilGone(pid: number, milliseconds: number): Promise<boolean> {
  const end = Date.now() + milliseconds;
  while (isAlive(pid)) {
    if (Date.now() > end) return false;
    await sleep(30);
  }
  return true;
}

function commandOf(pid: number): string {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, "utf8").replaceAll("\0", " ");
  } catch {
    try {
      return execFileSync("ps", ["-o", "command=", "-p", String(pid)], { encoding: "utf8", stdio: "pipe" });
    } catch {
      return "";
    }
  }
}

/** A process that has ended but that its parent has not yet asked about holds nothing any more. */
function isZombie(pid: number): boolean {
  try {
    return /\) Z /.test(readFileSync(`/proc/${pid}/stat`, "utf8"));
  } catch {
    return false;
  }
}
