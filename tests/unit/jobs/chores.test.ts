import { describe, expect, it } from "vitest";
import { keepDoing, pauseAfter } from "@/lib/jobs/chores-loop";

const often = 5;

describe("chores", () => {
  it("are done over and over, one that fails as well, and beside one that hangs", async () => {
    let [done, failed] = [0, 0];
    let release: () => void = () => undefined;
    const stop = keepDoing([
      { name: "works", every: often, run: async () => void done++ },
      { name: "fails", every: often, run: async () => { failed++; throw new Error("on purpose"); } },
      { name: "hangs", every: often, run: () => new Promise((resolve) => (release = resolve)) },
    ]);
    await expect.poll(() => done > 3 && failed > 1).toBe(true);
    release();
    await stop();
    const then = done;
    await new Promise((resolve) => setTimeout(resolve, 10 * often));
    expect(done).toBe(then);
  });

  it("end what they are at before the stop is over, and are told of it", async () => {
    const heard: string[] = [];
    let begun = false;
    const stop = keepDoing([{ name: "slow", every: often, run: async (told) => {
      begun = true;
      await new Promise<void>((resolve) => told.addEventListener("abort", () => resolve()));
      heard.push("told");
      await new Promise((resolve) => setTimeout(resolve, 30));
      heard.push("ended");
    } }]);
    await expect.poll(() => begun).toBe(true);
    await stop();
    expect(heard).toEqual(["told", "ended"]);
  });

  it("are tried ever less often while they fail, to five minutes, and never more often than when they work", () => {
    expect([0, 1, 2, 5, 50].map((failures) => pauseAfter(failures, 5_000))).toEqual([5_000, 10_000, 20_000, 160_000, 300_000]);
    expect(pauseAfter(3, 600_000)).toBe(600_000);
  });
});
