import type { Request } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

test.use({ as: "manager" });

/** Each size walks a site of its own: both are signed in as the same person. */
const siteOf = (project: string) => (project === "phone" ? "e09" : "e11");

test("a site is measured on a phone: readings are worked out as they are typed, and the plan's page shows what changes", async ({ page }, { project }) => {
  // As over plain http, where a browser has none of these.
  await page.addInitScript(() => {
    Reflect.deleteProperty(Crypto.prototype, "randomUUID");
    Reflect.deleteProperty(Navigator.prototype, "serviceWorker");
    Object.defineProperty(window, "isSecureContext", { value: false });
  });
  await page.goto(`/manage/survey/${siteOf(project.name)}`);
  await expect(page.getByText(/as long as it stays open\. To be opened again without signal, it has to come over https\.$/)).toBeVisible();
  await page.getByText("What to measure", { exact: true }).click();
  await page.getByRole("button", { name: /^Slope, side to side/ }).click();
  await page.getByLabel("How", { exact: true }).selectOption("level");
  await page.getByLabel("Length of the level").fill("4 ft");
  await page.getByLabel("Rise", { exact: true }).fill("a bit");
  await page.getByRole("button", { name: /^Keep it/ }).click();
  await expect(page.getByLabel("Rise", { exact: true })).toBeFocused();
  await expect(page.getByText("Write a length")).toBeVisible();
  await page.getByLabel("Rise", { exact: true }).fill("3/4 in");
  await page.getByLabel("The right is higher").check();
  await expect(page.getByText("It comes to -1.56%")).toBeVisible();
  await page.getByText("Look again by", { exact: true }).click();
  await page.getByLabel("A date, if you know better than usual.").fill("2199-05-02");
  await page.getByRole("button", { name: /^Keep it/ }).click();
  await expect(page.getByLabel("A date, if you know better than usual.")).toBeFocused();
  await expect(page.getByText("Choose a day from today on, in the next 50 years.")).toBeVisible();
  await page.getByLabel("A date, if you know better than usual.").fill(`${new Date().getFullYear() + 1}-05-02`);
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByRole("button", { name: /^Keep it/ }).click();
  await expect(page.getByText("Kept: Slope, side to side.")).toBeVisible();
  await expect(page.getByText("All sent.")).toBeVisible();
  await page.getByRole("link", { name: "Look at what changes, and save" }).click();
  await expect(page.getByText(/rises to the right 1\.6/).first()).toBeVisible();
  // A reading that comes in while this is looked at is shown before anything is saved.
  await page.evaluate(async (site) => {
    const reading = { id: `late-${Date.now()}`, of: "ground.across", how: "inclinometer", on: "2026-05-02", readings: { percent: { across: 2.2 } } };
    await fetch(`/manage/survey/${site}/send`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ steps: [{ do: "read", reading }] }) });
  }, siteOf(project.name));
  await page.getByRole("button", { name: /^Save/ }).click();
  await expect(page.getByRole("alert").getByText(/^Readings came in after this page was opened/)).toBeVisible();
  await expect(page.getByText(/rises to the left 2\.2/).first()).toBeVisible();
  await expect(page.getByRole("button", { name: /^Save/ })).toBeVisible();
});

test("what is measured with no signal is kept, survives a reload, and is sent once when the signal is back", async ({ page, context, watch }, { project }) => {
  test.slow();
  watch.allow(/ERR_INTERNET_DISCONNECTED|ERR_FAILED|WebSocket|Failed to fetch/);
  await page.goto(`/manage/survey/${siteOf(project.name)}`);
  await expect(page.getByText("Kept on this phone: you can open it without signal.")).toBeVisible({ timeout: 60_000 });
  const open = async (name: RegExp) => {
    await page.getByText("What to measure", { exact: true }).click();
    await page.getByRole("button", { name }).click();
  };
  await context.setOffline(true);
  await open(/^Slope, road to back/);
  await page.getByLabel("How", { exact: true }).selectOption("percent");
  await page.getByLabel("Percent").fill("2.4");
  await page.getByRole("button", { name: /^Keep it/ }).click();
  await expect(page.getByText("1 measurement kept on this phone.")).toBeVisible();
  await page.reload();
  await expect(page.getByText(/^No signal: this is the page as it was kept/)).toBeVisible({ timeout: 60_000 });
  await expect(page.getByText("1 measurement kept on this phone.")).toBeVisible();
  const taken: string[] = [], again: string[] = [];
  const stepsOf = (request: Request) => (request.url().endsWith("/send") ? (JSON.parse(request.postData() ?? "{}") as { steps: { reading: { id: string } }[] }).steps.map(({ reading }) => reading.id) : []);
  page.on("request", (request) => void again.push(...stepsOf(request).filter((id) => taken.includes(id))));
  page.on("response", (response) => { if (response.ok()) taken.push(...stepsOf(response.request())); });
  await context.setOffline(false);
  await expect(page.getByText("All sent.")).toBeVisible({ timeout: 60_000 });
  expect(taken).toHaveLength(1);
  // Asked to send what is left, it sends nothing.
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
  // What is kept of the page has caught up with what was sent.
  const keptWith = (id: string) => page.evaluate(async (part) => (await (await caches.match(location.href, { ignoreVary: true }))?.text())?.includes(part) ?? false, id);
  await expect.poll(() => keptWith(taken[0]!), { timeout: 60_000 }).toBe(true);
  await context.setOffline(true);
  await page.reload();
  await expect(page.getByText(/^No signal: this is the page as it was kept/)).toBeVisible({ timeout: 60_000 });
  await open(/^Slope, road to back/);
  await expect(page.getByText("On record: 2.4%")).toBeVisible();
  await context.setOffline(false);
  await page.reload();
  await open(/^Slope, road to back/);
  await expect(page.getByText("On record: 2.4%")).toBeVisible();
  expect([taken, again]).toEqual([[taken[0]], []]);
  const office = await page.evaluate(async () => (await fetch(location.href, { headers: { RSC: "1" } })).text());
  expect(office.split(`"id":"${taken[0]!}"`)).toHaveLength(2);
  await expect(page.getByText("All sent.")).toBeVisible();
});

test("a manager sees how far each loop is, drawn and told, and what is due", async ({ page }) => {
  await page.goto("/manage/survey");
  // Loop E has four sites that were surveyed; nobody has measured loop A with a tape.
  await expect(page.getByRole("img", { name: /^Loop A: 0 measured, \d+ guesses, \d+ missing\.$/ })).toBeVisible();
  await expect(page.getByRole("img", { name: /^Loop E: [1-9]\d* measured, / })).toBeVisible();
  await expect(page.getByRole("region", { name: "How far each loop is" }).getByRole("link", { name: "Loop E" })).toHaveAttribute("href", "#loop-E");
  await expectAccessible(page);
  await expectNoSideways(page);
});
