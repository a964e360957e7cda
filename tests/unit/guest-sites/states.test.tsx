import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it, vi } from "vitest";
import GuestError from "@/app/(guest)/error";
import { Stopped } from "@/app/(guest)/sites/stopped";
import { defaultPolicy } from "@/lib/fit";
import { closePool, rankInPool, RankingStopped } from "@/lib/jobs/fit-pool";
import { demoRig, demoSites } from "../wording/scene";

describe("a ranking that was given up", () => {
  it.each([["time", "took longer than it may"], ["busy", "Many people ask"], ["asker", "given up"]] as const)("for %s is told as neither yes nor no, with the way to ask again", (why, words) => {
    const html = renderToStaticMarkup(<Stopped why={why} again="/sites?kind=van&amp;units=metric" />);
    expect(html).toContain(words);
    expect(html).toMatch(/<a [^>]*href="\/sites\?kind=van[^"]*"[^>]*>Try again<\/a>/);
    expect(html).toContain('role="alert"');
  });

  it("is what the threads tell of one that takes too long", async () => {
    const asked = rankInPool(demoSites, demoRig("demo-fw-37"), { ...defaultPolicy, comfort: 601 }, { timeLimit: 1 });
    await expect(asked).rejects.toBeInstanceOf(RankingStopped);
    await expect(asked).rejects.toMatchObject({ why: "time" });
    await closePool();
  });
});

describe("a page that failed", () => {
  it("says that what was typed is kept, and offers to ask again", () => {
    const html = renderToStaticMarkup(<GuestError error={new Error("x")} retry={vi.fn()} />);
    expect(html).toContain("What you typed is still in the address");
    expect(html).toMatch(/<button type="button"[^>]*>Try again<\/button>/);
  });
});
