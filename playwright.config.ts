import { defineConfig } from "@playwright/test";
import { freePort } from "./tests/setup/free-port";

/** As root a browser's own sandbox cannot be set up; the rest keeps it from asking the network for things nobody wants. */
const launchArguments = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

// Each worker reads this file again: the port is chosen once and handed on.
const port = (process.env["PADWRIGHT_TEST_PORT"] ??= String(await freePort()));
// A server that is already running, where one works on the pages; the gate starts its own.
const running = process.env["PADWRIGHT_TEST_SERVER"];
const executablePath = process.env["PADWRIGHT_CHROMIUM"] ?? "/usr/bin/chromium";

/** Takes a site away for a while, which every page that counts them would show. */
const alone = "out-of-use.spec.ts";

/** The production build, started by the command people use, on a database of its own with the demo park in it. */
export default defineConfig({
  testDir: "tests/browser",
  outputDir: "test-results/browser",
  fullyParallel: true,
  workers: 2,
  // Two browsers, a server and a database share what may be two slow cores: a second try is told by name, and few are let pass.
  retries: 1,
  forbidOnly: Boolean(process.env["CI"]),
  // For a machine that hangs: what passes is no slower for them.
  timeout: 180_000,
  expect: { timeout: 30_000 },
  use: {
    baseURL: running ?? `http://localhost:${port}`,
    screenshot: "only-on-failure",
    // Recording every step costs every test: for who looks into one.
    trace: process.env["PADWRIGHT_TRACE"] ? "retain-on-failure" : "off",
    launchOptions: { executablePath, args: launchArguments },
    locale: "en-US",
    timezoneId: "America/New_York",
    reducedMotion: "reduce",
  },
  projects: [
    // Somebody of the desk and a manager, made as people make them and signed in once for all tests.
    { name: "staff", testMatch: "staff.setup.ts" },
    // What asks the interface alone looks the same in every size: once is enough.
    { name: "phone", dependencies: ["staff"], testIgnore: ["stays-interface.test.ts", alone], use: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 } },
    { name: "desktop", dependencies: ["staff"], testIgnore: alone, use: { viewport: { width: 1280, height: 800 } } },
    // What changes the park for everybody, once all others are through.
    { name: "alone", testMatch: alone, dependencies: ["phone", "desktop"], use: { viewport: { width: 1280, height: 800 } } },
  ],
  ...(running ? {} : { webServer: {
    command: "node scripts/up.mjs --throwaway",
    env: { PORT: port },
    // The link it prints for the first manager, kept in PADWRIGHT_FIRST_MANAGER.
    wait: { stdout: /(?<padwright_first_manager>http:\S+\/join\/\S+)/ },
    timeout: 300_000,
    reuseExistingServer: false,
    gracefulShutdown: { signal: "SIGTERM", timeout: 30_000 },
    stdout: "pipe",
  } }),
});
