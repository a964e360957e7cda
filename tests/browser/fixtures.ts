import path from "node:path";
import { expect, test as plain } from "@playwright/test";

export { expect } from "@playwright/test";

interface Watch {
  /** Lets console errors and page errors that match pass: for a test that brings one about on purpose. */
  readonly allow: (pattern: RegExp) => void;
}

/** Who of the staff is signed in. */
export type Staff = "manager" | "desk";

interface Options {
  /**
   * Whose session the browser starts with: `test.use({ as: "desk" })`; nobody's where left out. Tests share the one
   * session of each: who signs out, or changes an account, makes an account of their own (see join-as.ts).
   */
  readonly as: Staff | null;
}

/** Where the session of `staff` on the server at `baseURL` is kept between the tests, and the runs, that use it. */
export function sessionFile(staff: Staff, baseURL: string): string {
  return path.resolve("test-results", "staff", `${new URL(baseURL).host.replace(/\W+/g, "-")}-${staff}.json`);
}

/**
 * The test function of every browser test: a page that writes an error to its console, throws, or is refused
 * something by its Content-Security-Policy fails the test, whatever else the test looks at.
 */
export const test = plain.extend<{ watch: Watch } & Options>({
  as: [null, { option: true }],
  storageState: async ({ as, baseURL }, run) => run(as ? sessionFile(as, baseURL!) : undefined),
  watch: [
    async ({ context }, run) => {
      const faults: string[] = [];
      const allowed: RegExp[] = [];
      context.on("console", (message) => {
        if (message.type() === "error") faults.push(`console: ${message.text()} (${message.location().url})`);
      });
      context.on("weberror", (error) => faults.push(`page: ${error.error().stack ?? error.error().message}`));
      await run({ allow: (pattern) => void allowed.push(pattern) });
      expect(faults.filter((fault) => !allowed.some((pattern) => pattern.test(fault)))).toEqual([]);
    },
    { auto: true },
  ],
});
