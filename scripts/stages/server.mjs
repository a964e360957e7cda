import { spawn } from "node:child_process";
import { createServer } from "node:net";
import { Fault } from "./fault.mjs";
import { inRoot, root } from "./root.mjs";

const usual = 3000;

/** The port to serve on: the one that was set, else 3000 or the next one free. */
export async function choosePort({ PORT }, say) {
  if (PORT !== undefined) {
    const refusal = await tryPort(PORT);
    if (!refusal) return PORT;
    throw new Fault(refusal === "EACCES" ? `Port ${PORT} is for root alone: set PORT to one above 1023.` : `Port ${PORT} is taken: stop what uses it, or set PORT to another one.`);
  }
  for (let port = usual; port < usual + 100; port += 1) {
    if (await tryPort(port)) continue;
    if (port !== usual) say(`  Port ${usual} is taken, so this uses ${port}. Set PORT to choose.`);
    return port;
  }
  throw new Fault(`Ports ${usual} to ${usual + 99} are all taken: set PORT to a free one.`);
}

/** Null where the port is free on every address of this machine, else the system's reason. */
function tryPort(port) {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once("error", (error) => resolve(error.code));
    probe.listen(port, () => probe.close(() => resolve(null)));
  });
}

/**
 * Starts the web application in a process of its own and resolves when it answers. It goes when this process goes,
 * killed outright even: the channel between them closes.
 */
export function startServer({ PORT, HOST, DATABASE_URL, dev }) {
  const child = spawn(process.execPath, ["--enable-source-maps", inRoot("scripts", "serve.mjs")], {
    cwd: root,
    env: { ...process.env, NODE_ENV: dev ? "development" : "production", PADWRIGHT_DEV: dev ? "1" : "", PORT: String(PORT), HOST, DATABASE_URL, NEXT_TELEMETRY_DISABLED: "1" },
    stdio: ["ignore", "inherit", "inherit", "ipc"],
    // In a session of its own, so that Ctrl-C reaches this process alone, which then stops things in order.
    detached: true,
  });
  const gone = new Promise((resolve) => child.once("exit", resolve));
  const stop = async () => {
    if (child.exitCode === null && child.signalCode === null) child.kill("SIGTERM");
    await gone;
  };
  return new Promise((resolve, reject) => {
    child.once("message", ({ failed }) => {
      if (failed) reject(new Fault(failed === "EADDRINUSE" ? `Port ${PORT} was taken in the meantime: run the command again.` : `The web server could not start: ${failed}.`));
      else resolve({ stop, drop: () => child.kill("SIGKILL"), ended: gone.then((code) => `The web server ended by itself (code ${code}); its last words stand above. Run the command again.`) });
    });
    gone.then((code) => reject(new Fault(`The web server did not start (code ${code}); its last words stand above.`)));
  });
}
