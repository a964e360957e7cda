import { mkdirSync } from "node:fs";
import { explain } from "./fault.mjs";
import { hashOf, stampAt } from "./stamp.mjs";
import { runNode } from "./programs.mjs";
import { inRoot } from "./root.mjs";

const sources = ["app", "lib", "public", "prisma/schema.prisma", "proxy.ts", "instrumentation.ts", "next.config.mjs", "tsconfig.json", "package-lock.json", "scripts/stages/build.mjs"];
const stamp = stampAt(".next", "padwright-built");

/** Builds the web application and the worker where their sources have changed since. */
export async function buildApplication(say) {
  const wanted = hashOf(sources, { extra: process.versions.modules, skip: ["lib/store/generated"] });
  if (stamp.matches(wanted)) return "up to date";
  say("building");
  // A build that is broken off leaves no stamp, and is made again.
  stamp.remove();
  await buildWorker();
  await runNode(["node_modules/next/dist/bin/next", "build"], {
    env: { ...process.env, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" },
    what: "The web application could not be built",
  });
  stamp.write(wanted);
  return "built";
}

/** The worker that solves fits runs outside the web application's own bundle, as one file. */
async function buildWorker() {
  const { build } = await import("esbuild");
  mkdirSync(inRoot("dist"), { recursive: true });
  try {
    await build({
      absWorkingDir: inRoot(),
      entryPoints: ["lib/jobs/fit-worker.ts"],
      outfile: "dist/fit-worker.mjs",
      bundle: true,
      platform: "node",
      target: "node20",
      format: "esm",
      minifySyntax: true,
      sourcemap: true,
      logLevel: "silent",
    });
  } catch (error) {
    throw explain("The worker could not be built", error.message) ?? error;
  }
}
