import { expect, test as plain } from "@playwright/test";

export { expect } from "@playwright/test";

interface Watch {
  /** Lets console errors and page errors that match pass: for a test that brings one about on purpose. */
  readonly allow: (pattern: RegExp) => void;
}

/**
 * The test function of every browser test: a page that writes an error to its console, throws, or is refused
 * something by its Content-Security-Policy fails the test, whatever else the test looks at.
 */
export const test = plain.extend<{ watch: Watch }>({
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
