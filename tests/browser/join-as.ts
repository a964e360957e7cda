import { execFileSync } from "node:child_process";
import { randomBytes } from "node:crypto";
import { expect, type Page } from "@playwright/test";
import type { Staff } from "./fixtures";

export interface Person {
  readonly name: string;
  readonly email: string;
  readonly password: string;
}

export function makePerson(name: string): Person {
  return { name, email: `${name.toLowerCase().replace(/\W+/g, "-")}-${randomBytes(5).toString("hex")}@example.test`, password: `quills in the ${randomBytes(5).toString("hex")}` };
}

/** Joins by a link, as people do, and ends up signed in. */
export async function join(page: Page, link: string, { name, email, password }: Person): Promise<void> {
  await page.goto(link);
  await page.getByLabel("Your name").fill(name);
  await page.getByLabel("E-mail").fill(email);
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Make my account" }).click();
  await expect(page.getByRole("region", { name: "For staff" }).getByRole("link", { name })).toBeVisible({ timeout: 30_000 });
}

/** A link to hand over, from a page that is signed in as a manager. */
export async function inviteLink(page: Page, role: Staff): Promise<string> {
  await page.goto("/manage/accounts");
  await page.getByRole("button", { name: role === "desk" ? "Link for the desk" : "Link for a manager" }).click();
  return page.getByRole("textbox", { name: "Link", exact: true }).inputValue();
}

/** The same from the command line, for a server that is already running, on the data folder it was started with. */
export function operatorLink(role: Staff, address: string): string {
  return execFileSync(process.execPath, ["scripts/run.mjs", "lib/cli/accounts.ts", "link", "--role", role, "--address", address], { encoding: "utf8" }).trim();
}

/** Signs in by the form. */
export async function signIn(page: Page, { email, password }: Pick<Person, "email" | "password">): Promise<void> {
  await page.getByLabel("E-mail").fill(email);
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Sign in" }).click();
}
