/**
 * Serves the web application on HOST:PORT against DATABASE_URL, until it is told to stop or until the process that
 * started it is gone. `npm run up` starts it; a machine with a database and a build of its own can start it alone.
 */
import { createServer } from "node:http";
import next from "next";
import { noteClient } from "./stages/note-client.mjs";

const port = Number(process.env.PORT ?? 3000);
const hostname = process.env.HOST ?? "127.0.0.1";
/** How many servers of the house's own stand in front of this one and say who asked. */
const proxies = Number(process.env.PADWRIGHT_PROXIES ?? 0);
const dev = process.env.PADWRIGHT_DEV === "1";
/** How long requests that are being answered may still take when it is told to stop. */
const patience = 5000;

const app = next({ dev, dir: process.cwd(), hostname, port });
const server = createServer();
// Longer than browsers and most proxies keep a connection in hand: who uses one again must not meet the moment it is closed.
server.keepAliveTimeout = 75_000;
let stopping = false;

async function stop() {
  if (stopping) return;
  stopping = true;
  setTimeout(() => server.closeAllConnections(), patience).unref();
  server.closeIdleConnections();
  const closed = new Promise((resolve) => server.close(resolve));
  // What happens by itself (lib/jobs/chores.ts) ends what it is at, for as long as requests may take and no longer.
  await Promise.race([globalThis.padwrightStopChores?.(), new Promise((resolve) => setTimeout(resolve, patience).unref())]);
  await closed;
  await app.close();
  process.exit(0);
}

process.on("SIGINT", stop);
process.on("SIGTERM", stop);
process.on("disconnect", stop);
server.once("error", (error) => {
  process.send?.({ failed: error.code ?? error.message });
  console.error(`Padwright cannot listen on ${hostname}:${port}: ${error.message}`);
  process.exit(1);
});

await app.prepare();
const handle = app.getRequestHandler();
server.on("request", (request, response) => {
  noteClient(request, proxies);
  void handle(request, response);
});
if (dev) server.on("upgrade", app.getUpgradeHandler());
server.listen(port, hostname, () => process.send?.({ ready: true }));
