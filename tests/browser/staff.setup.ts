import { existsSync, mkdirSync, renameSync } from "node:fs";
import path from "node:path";
import { expect, test as setup, type Browser } from "@playwright/test";
import { sessionFile, type Staff } from "./fixtures";
import { inviteLink, join, makePerson, operatorLink } from "./join-as";

/** The first manager by the link that is printed at the start, or one by the command line; the desk by the manager's. */
setup("a manager joins by a link and invites the desk", async ({ browser, baseURL }) => {
  if (!(await isGood(browser, "manager", baseURL!))) {
    const link = process.env["PADWRIGHT_TEST_SERVER"] ? operatorLink("manager", baseURL!) : process.env["PADWRIGHT_FIRST_MANAGER"]!;
    await joinAndKeep(browser, link, "manager", baseURL!);
  }
  if (!(await isGood(browser, "desk", baseURL!))) {
    const managers = await browser.newContext({ storageState: sessionFile("manager", baseURL!), baseURL: baseURL! });
    const link = await inviteLink(await managers.newPage(), "desk");
    await managers.close();
    await joinAndKeep(browser, link, "desk", baseURL!);
  }
  for (const staff of ["manager", "desk"] as const) expect(await isGood(browser, staff, baseURL!), staff).toBe(true);
});

/** Whether a run before left a session that still stands. */
async function isGood(browser: Browser, staff: Staff, baseURL: string): Promise<boolean> {
  const file = sessionFile(staff, baseURL);
  if (!existsSync(file)) return false;
  const context = await browser.newContext({ storageState: file, baseURL });
  const answer = await context.request.get("/account", { maxRedirects: 0 });
  await context.close();
  return answer.status() === 200;
}

async function joinAndKeep(browser: Browser, link: string, staff: Staff, baseURL: string): Promise<void> {
  const context = await browser.newContext({ baseURL });
  await join(await context.newPage(), link, makePerson(staff === "manager" ? "Morgan Vale" : "Dell Okoro"));
  const file = sessionFile(staff, baseURL), half = `${file}.${process.pid}`;
  mkdirSync(path.dirname(file), { recursive: true });
  await context.storageState({ path: half });
  renameSync(half, file);
  await context.close();
}
