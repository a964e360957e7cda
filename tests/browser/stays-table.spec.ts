import type { Page } from "@playwright/test";
import { dateOfDay } from "@/lib/stays/dates";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { sendFiles, tableFile } from "./send-files";

test.use({ as: "manager" });

/** Some day years ahead, where nobody else books: another each time. */
const someDay = () => 25_000 + Math.floor(Math.random() * 15_000);
const american = (iso: string) => iso.replace(/^(\d+)-0?(\d+)-0?(\d+)$/, "$2/$3/$1");
const send = (page: Page, text: string | Uint8Array) => sendFiles(page, tableFile("our book.csv", text));

test("stays of another book are looked at, put right and read in, and the desk has them", async ({ page }, { project }) => {
  test.slow();
  const day = someDay(), arrive = dateOfDay(day), depart = dateOfDay(day + 2), site = project.name === "phone" ? "A-03" : "A-04", name = `Wren Alder ${day}`;
  const rows = (date: (iso: string) => string) => `${date(arrive)},${date(depart)},${name},${site},van,19,wren@example.org\n${date(arrive)},${date(depart)},Bo Alder ${day},,fifth wheel,33,\n`;
  await send(page, `Arrive,Depart,Guest,Site,Rig kind,Rig length (ft),Email\n${rows(american)}${american(arrive)},${american(depart)},,nowhere,blimp,3,\n`);
  const faults = page.getByRole("table");
  await expect(faults).toContainText("Say the order in the header, such as Arrive (m/d/y) or Arrive (d/m/y), or write dates as 2027-07-04.");
  await expect(faults).toContainText("“blimp” is none of");
  await expect(page.getByRole("button", { name: "Read it in" })).toHaveCount(0);
  await expectAccessible(page);
  await expectNoSideways(page);

  await send(page, `Arrive (m/d/y),Depart (m/d/y),Guest,Site,Rig kind,Rig length (ft),Email\n${rows(american)}`);
  await expect(page.getByText("Stays: 2 added")).toBeVisible();
  await expect(page.getByText(new RegExp(`${name}: .*, site ${site}`))).toBeVisible();
  await expect(page.getByRole("heading", { name: "Whether the rigs fit their sites" })).toBeVisible();
  await expect(page.getByText(/No mail goes out/)).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByLabel("Why, for the record").fill("from the old book");
  await page.getByRole("button", { name: "Read it in" }).click();
  await expect(page.getByText("Read in. Stays: 2 added.")).toBeVisible({ timeout: 60_000 });

  await page.goto(`/desk/find?q=${encodeURIComponent(name)}`);
  await page.getByRole("link", { name: new RegExp(name) }).first().click();
  await expect(page.getByRole("heading", { level: 1 })).toContainText(name);
  await expect(page.getByRole("main")).toContainText("from the old book");

  // The same rows again: the nights are theirs.
  await send(page, `Arrive (m/d/y),Depart (m/d/y),Guest,Site,Rig kind,Rig length (ft),Email\n${rows(american)}`);
  await expect(page.getByRole("table")).toContainText(new RegExp(`Site ${site} is taken from .* by stay [A-Z3-9]{6}\\.`));
});

test("what is handed out of stays is read back as no change, and says how such a table is written", async ({ page }) => {
  test.slow();
  await page.goto("/manage/inventory");
  await page.getByText("How a table of stays is written").click();
  await expect(page.getByText(/Dates are written 2027-07-02/)).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  // Somebody else may book between the two: then it is handed out anew.
  await expect(async () => {
    const answer = await page.request.get("/manage/inventory/file/stays.csv");
    await send(page, await answer.body());
    await expect(page.getByRole("region", { name: "What would change" })).toContainText("Nothing. The park is exactly as these files have it.", { timeout: 15_000 });
  }).toPass({ timeout: 150_000 });
});
