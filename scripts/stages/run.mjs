import { spawn } from "node:child_process";
import { pathToFileURL } from "node:url";
import { lineOf } from "./fault.mjs";
import { progressOn } from "./progress.mjs";
import { inRoot, root } from "./root.mjs";
import { isReady, setUp } from "./setup.mjs";

/** Named by its file: it is found from any folder the command is run in. */
const loader = pathToFileURL(inRoot("node_modules", "tsx", "dist", "loader.mjs")).href;

/**
 * Runs a TypeScript file of this clone with the arguments after it, its input, output and exit code being the
 * command's own. What a fresh clone still needs is done first, told of on standard error alone.
 */
export async function runTypeScript([file, ...args]) {
  if (!file) {
    console.error("Usage: node scripts/run.mjs FILE.ts [arguments]");
    process.exit(2);
  }
  await makeReady();
  process.exit(await spawnTypeScript([file, ...args]));
}

/** Runs a TypeScript file in a clone that is ready, with `more` in its environment; resolves with its exit code. */
export function spawnTypeScript([file, ...args], more = {}) {
  const child = spawn(process.execPath, ["--import", loader, inRoot(file), ...args], { stdio: "inherit", env: { ...process.env, TSX_TSCONFIG_PATH: inRoot("tsconfig.json"), ...more } });
  // Ctrl-C reaches the child by itself; this process only has to stay until it is done.
  process.on("SIGINT", () => undefined);
  process.on("SIGTERM", () => child.kill("SIGTERM"));
  return new Promise((resolve) => {
    child.once("exit", (code, signal) => resolve(signal ? 128 + ({ SIGINT: 2, SIGTERM: 15, SIGKILL: 9 }[signal] ?? 1) : code));
  });
}

/** Makes the clone ready, where it is not, and does nothing more. Told of on standard error alone. */
export async function makeReady() {
  if (isReady()) return;
  process.chdir(root);
  try {
    await setUp(progressOn(process.stderr));
  } catch (error) {
    console.error(lineOf(error));
    process.exit(1);
  }
}
