import { afterEach, beforeEach, vi } from "vitest";

/**
 * An unexpected `console.error` fails the test it happened in: React and Next report broken markup, unhandled
 * rejections and misuse that way, and a passing run must not hide them. A test that expects one says so with
 * `vi.mocked(console.error).mockClear()` after looking at it.
 */
beforeEach(() => {
  vi.spyOn(console, "error").mockImplementation(() => undefined);
});

afterEach(() => {
  const { calls } = vi.mocked(console.error).mock;
  if (calls.length === 0) return;
  const first = calls[0]?.map((part: unknown) => (part instanceof Error ? (part.stack ?? part.message) : String(part)));
  throw new Error(`console.error was called ${calls.length} time(s); first: ${first?.join(" ")}`);
});
