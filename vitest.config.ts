import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));

/**
 * One project per kind of test, so that the quick ones can run without the database. `timeout`, milliseconds, is for what
 * hangs, on the slowest machine: it judges no speed. Nor does the one of what is polled for: by itself that is a second,
 * less than a busy machine may take to end a killed connection.
 */
function project(name: string, timeout: number, setup: string[] = []) {
  return {
    extends: true as const,
    test: {
      name,
      include: [`tests/${name}/**/*.test.{ts,tsx}`],
      setupFiles: ["tests/setup/console.ts", "tests/setup/tries.ts", ...setup],
      testTimeout: timeout,
      hookTimeout: timeout,
      expect: { poll: { timeout: 30_000 } },
      // What passes only then is told by name, and few are let pass.
      retry: 1,
    },
  };
}

export default defineConfig({
  root,
  resolve: { alias: [{ find: /^@\//, replacement: root }] },
  oxc: { jsx: { runtime: "automatic" } },
  test: {
    environment: "node",
    restoreMocks: true,
    projects: [
      project("unit", 180_000),
      project("laws", 300_000),
      project("reference", 180_000),
      {
        ...project("store", 300_000),
        test: { ...project("store", 300_000).test, globalSetup: ["tests/setup/database.ts"] },
      },
      // On the build, with servers of their own: `npm test` runs them after it.
      // What their copies of the application log of the outage that is meant is passed over, errors are not.
      { ...project("crash", 300_000), test: { ...project("crash", 300_000).test, env: { LOG_LEVEL: "error" } } },
    ],
  },
});
