import { explain } from "./fault.mjs";
import { buildApplication } from "./build.mjs";
import { clientIsReady, generateClient } from "./client.mjs";
import { beginningOf, isRunning, waitForLock } from "./lock.mjs";
import { installPackages, packagesAreReady } from "./packages.mjs";
import { onProgramStart } from "./programs.mjs";
import { inRoot } from "./root.mjs";

/** Whether TypeScript can be run here as it is. */
export const isReady = () => packagesAreReady() && clientIsReady();

/**
 * Makes a fresh clone ready: packages, the typed client and, with `build`, the web application. One command at a
 * time does this in a clone; another one waits and then finds it done.
 */
export async function setUp({ step }, { build = false } = {}) {
  const lock = await step("clone", "looking at this clone", async (show) => takeSetupLock(show));
  endLeftOver(lock.left?.program);
  onProgramStart((pid) => lock.update({ program: { pid, began: beginningOf(pid) } }));
  try {
    await step("packages", "looking at the packages", installPackages);
    await step("client", "looking at the database client", generateClient);
    if (build) await step("build", "looking at the build", buildApplication);
  } finally {
    onProgramStart(() => undefined);
    lock.release();
  }
}

/** An installation whose command was killed goes on by itself and would work against the new one. */
function endLeftOver(program) {
  if (!program || !isRunning(program)) return;
  try {
    process.kill(-program.pid, "SIGKILL");
  } catch {
    // It ended just now.
  }
}

async function takeSetupLock(show) {
  try {
    return await waitForLock(inRoot(".data", "setup.lock"), show);
  } catch (error) {
    throw explain("This clone cannot be set up", `${error.code} ${error.message}`) ?? error;
  }
}
