import "./store-url";
import { execFile } from "node:child_process";
import { describe, expect, inject, it } from "vitest";
import { readLink } from "@/lib/store/accounts/links";
import { withStore } from "./client";
import { openPark, park } from "./stays-park";

withStore();

function run(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    execFile(process.execPath, ["scripts/run.mjs", "lib/cli/accounts.ts", ...args], { env: { ...process.env, DATABASE_URL: inject("databaseUrl") } }, (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }));
  });
}

describe("the command for who is locked out", () => {
  it("prints a link that lets one in, with the role that was asked for", async () => {
    await openPark();
    const { code, out } = await run("link", "--role", "desk", "--park", park, "--address", "https://park.example/");
    expect(code).toBe(0);
    const [, token] = /^https:\/\/park\.example\/join\/([\w-]{43})\n$/.exec(out)!;
    expect(await readLink(token!, "join")).toMatchObject({ park, role: "desk" });
  });

  it("says what is wrong with what it was asked, and makes nothing", async () => {
    await openPark();
    expect(await run("link", "--role", "owner")).toMatchObject({ code: 2, out: "", err: expect.stringContaining("--role manager|desk") as string });
    expect(await run("link", "--role", "desk", "--park", "nowhere")).toMatchObject({ code: 2, out: "", err: `There is no park nowhere. There is: ${park}.\n` });
    expect(await run("--nonsense")).toMatchObject({ code: 2, out: "" });
  });
});
