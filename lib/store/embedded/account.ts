import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";

/** An account of this machine that the server runs as in place of root, which PostgreSQL refuses. */
export interface Account {
  readonly name: string;
  readonly uid: number;
  readonly gid: number;
}

/** True where Padwright itself runs as root and so has to hand the server to someone else. */
export const runsAsRoot = (): boolean => process.getuid?.() === 0;

/**
 * The account for the server: the owner of a cluster that is already there, else a `padwright` or `postgres`
 * account, else a `padwright` account made now, else `nobody`. Null where none can be had.
 */
export function chooseAccount(cluster: string): Account | null {
  return ownerOf(cluster) ?? lookUp("padwright") ?? lookUp("postgres") ?? createAccount() ?? lookUp("nobody");
}

/** Whether `account` can go into `folder`. Asked of the system itself: modes alone do not tell (access lists, mounts). */
export function canEnter(account: Account, folder: string): boolean {
  return succeeds(account, 'cd "$1" && ls . >/dev/null', folder);
}

/** Whether `account` can run `program`, libraries beside it included. */
export function canRun(account: Account, program: string): boolean {
  return succeeds(account, '"$1" --version >/dev/null', program);
}

function succeeds(account: Account, script: string, argument: string): boolean {
  const { uid, gid } = account;
  return spawnSync("/bin/sh", ["-c", script, "sh", argument], { uid, gid, cwd: "/", stdio: "ignore" }).status === 0;
}

function ownerOf(folder: string): Account | null {
  if (!existsSync(folder)) return null;
  const { uid, gid } = statSync(folder);
  return uid === 0 ? null : { name: String(uid), uid, gid };
}

function lookUp(name: string): Account | null {
  try {
    const number = (flag: string) => Number(execFileSync("id", [flag, name], { encoding: "utf8", stdio: "pipe" }));
    return { name, uid: number("-u"), gid: number("-g") };
  } catch {
    return null;
  }
}

function createAccount(): Account | null {
  const ways: [string, string[]][] = [
    ["useradd", ["--system", "--user-group", "--no-create-home", "--home-dir", "/nonexistent", "--shell", "/usr/sbin/nologin", "padwright"]],
    ["adduser", ["-S", "-D", "-H", "padwright"]],
  ];
  for (const [program, args] of ways) {
    if (spawnSync(program, args, { stdio: "ignore" }).status === 0) return lookUp("padwright");
  }
  return null;
}
