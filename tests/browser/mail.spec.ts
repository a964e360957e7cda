import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, sessionFile, test } from "./fixtures";
import { demoRig, nightsOf } from "./open-stays";

test.use({ as: "desk" });

/** The mails of a stay that wait, or that went: the rows that name its reference. */
const rowsOf = (page: Page, list: "To send by hand" | "Sent", reference: string) => page.getByRole("list", { name: list, exact: true }).getByRole("listitem").filter({ hasText: reference });

test("with no mail server set a guest books, and the desk finds the mail, opens its text once and marks it as sent", async ({ page, browser, baseURL }, info) => {
  // Two people, one after the other.
  test.slow();
  const { arrive, depart } = nightsOf(info, 17);
  const guest = await (await browser.newContext({ baseURL: baseURL! })).newPage();
  await guest.goto(`/sites?kind=travel-trailer&units=ft-in&arrive=${arrive}&depart=${depart}`);
  await guest.locator("#sites h3 a").first().click();
  await guest.getByRole("button", { name: "Hold this site for 20 minutes" }).click();
  await guest.getByLabel("Your name").fill("Mara Finch");
  await guest.getByLabel("E-mail", { exact: true }).fill("mara@example.com");
  await guest.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(guest.getByRole("heading", { level: 1, name: "Your stay is booked" })).toBeVisible();
  const reference = await guest.locator("dt", { hasText: /^Reference$/ }).locator("+ dd").innerText();

  await page.goto("/manage/park");
  await page.getByRole("link", { name: "Mail to guests" }).click();
  await expect(page.getByText("No mail server is set")).toBeVisible();
  const row = rowsOf(page, "To send by hand", reference);
  await expect(row).toHaveCount(1);
  await expect(row).toContainText("To mara@example.com");
  await row.getByRole("button", { name: /^Show the text/ }).click();
  await expect(row.getByLabel("Subject")).toHaveValue(`Your stay at Quillback Meadow is booked (${reference})`);
  const text = await row.getByLabel("Text of the mail").inputValue();
  expect(text).toContain("Hello Mara Finch,");
  expect(await row.getByRole("link", { name: "Open in mail program" }).getAttribute("href")).toContain(`mailto:mara%40example.com?subject=Your%20stay`);
  await expectAccessible(page);
  await expectNoSideways(page);
  const link = /http:\S+\/stay\/[\w-]{43}/.exec(text)![0];
  await guest.goto(new URL(link).pathname);
  await expect(guest.getByText(reference, { exact: true })).toBeVisible();

  // Once: who comes back to the page is not shown it again, and the copy kept of it opens no stay.
  await page.reload();
  await expect(row).toHaveCount(1);
  await expect(row.getByLabel("Text of the mail")).toHaveCount(0);
  await row.getByRole("button", { name: /^Mark as sent/ }).click();
  await expect(page.getByText("Marked as sent.")).toBeVisible();
  await expect(rowsOf(page, "To send by hand", reference)).toHaveCount(0);
  const sent = rowsOf(page, "Sent", reference);
  await expect(sent).toContainText("Sent by hand");
  await sent.locator("summary").click();
  await expect(sent.locator("pre")).toContainText("[private link]");
  await expect(sent.locator("pre")).not.toContainText("/stay/");
  await expectAccessible(page);

  await guest.getByRole("link", { name: "Cancel this stay" }).click();
  await guest.getByRole("button", { name: "Yes, cancel it" }).click();
  await expect(guest.getByRole("heading", { level: 1, name: "This stay is canceled" })).toBeVisible();
  await page.goto("/manage/mail");
  await expect(rowsOf(page, "To send by hand", reference)).toContainText("Stay canceled");
  await guest.context().close();
});

test("without script the text is shown and mail marked all the same", async ({ browser, baseURL, request }, info) => {
  const answer = await request.post("/api/stays", { data: { park: "quillback-meadow", ...nightsOf(info, 9), rig: demoRig(), guest: { name: "Odo Lark", email: "odo@example.com" } } });
  expect(answer.status(), await answer.text()).toBe(201);
  const { stay, link } = (await answer.json()) as { stay: { id: string; reference: string }; link: { token: string } };
  const page = await (await browser.newContext({ baseURL: baseURL!, javaScriptEnabled: false, storageState: sessionFile("desk", baseURL!) })).newPage();
  await page.goto("/manage/mail");
  const row = rowsOf(page, "To send by hand", stay.reference);
  await row.getByRole("button", { name: /^Show the text/ }).click();
  await expect(row.getByLabel("Text of the mail")).toHaveValue(/\/stay\/[\w-]{43}/);
  await row.getByRole("button", { name: /^Mark as sent/ }).click();
  await expect(page.getByText("Marked as sent.")).toBeVisible();
  await page.context().close();
  expect((await request.patch(`/api/stays/${stay.id}`, { data: { state: "cancelled" }, headers: { Authorization: `Bearer ${link.token}` } })).status()).toBe(200);
});

test.describe("to who is not signed in", () => {
  test.use({ as: null });
  test("mail is not shown", async ({ page }) => {
    await page.goto("/manage/mail");
    await expect(page).toHaveURL(/\/sign-in\?next=%2Fmanage%2Fmail/);
  });
});
