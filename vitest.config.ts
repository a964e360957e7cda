import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));

/** One project per kind of test, so that the quick ones can run without the database. */
function project(name: string, timeout: number, setup: string[] = []) {
  return {
    extends: true as const,
    test: {
      name,
      include: [`tests/${name}/**/*.test.{ts,tsx}`],
      setupFiles: ["tests/setup/console.ts", ...setup],
      testTimeout: timeout,
      hookTimeout: timeout,
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
      project("unit", 20_000),
      project("laws", 120_000),
      project("reference", 60_000),
      {
        ...project("store", 60_000),
        test: { ...project("store", 60_000).test, globalSetup: ["tests/setup/database.ts"] },
      },
    ],
  },
});
