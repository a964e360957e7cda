import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "./fixtures";

test.describe("a manager", () => {
  test.use({ as: "manager" });

  test("hands out a calendar of a site once, which anybody with it reads until it is ended", async ({ page, request }, { project }) => {
    await page.goto("/manage/calendars");
    const name = `Listing ${project.name} ${Date.now()}`;
    const form = page.locator("form").filter({ has: page.getByRole("button", { name: "Make an address" }) });
    await form.getByLabel("Site", { exact: true }).selectOption({ index: 3 });
    await form.getByLabel("Who it is for").fill(name);
    await form.getByRole("button", { name: "Make an address" }).click();
    const address = await page.getByLabel("Address of the calendar").and(page.locator("[readonly]")).inputValue();
    expect(address).toMatch(/^http:\/\/.+\/calendar\/[\w-]{43}\.ics$/);
    const first = await request.get(address);
    expect([first.status(), first.headers()["content-type"]]).toEqual([200, "text/calendar; charset=utf-8"]);
    expect(await first.text()).toMatch(/^BEGIN:VCALENDAR\r\n[\s\S]*END:VCALENDAR/);
    expect((await request.get(address, { headers: { "If-None-Match": first.headers()["etag"]! } })).status()).toBe(304);
    // Shown once: the page itself no longer knows it.
    await page.reload();
    expect(await page.content()).not.toContain(address.split("/").at(-1));
    await page.getByRole("button", { name: `End it: ${name}` }).click();
    await expect(page.getByRole("status").filter({ hasText: "Ended." })).toBeVisible();
    expect((await request.get(address)).status()).toBe(404);
    await expect(page.getByText(name)).toHaveCount(0);
  });

  test("adds a calendar from outside, is told what is wrong with it, and removes it", async ({ page }, { project }) => {
    await page.goto("/manage/calendars");
    const name = `Elsewhere ${project.name} ${Date.now()}`;
    const form = page.locator("form").filter({ has: page.getByRole("button", { name: "Add and read it now" }) });
    await form.getByLabel("Name").fill(name);
    await form.getByLabel("Address of the calendar").fill("ftp://listing.example/12.ics");
    await form.getByRole("button", { name: "Add and read it now" }).click();
    await expect(form.getByRole("alert")).toHaveText("Not added. Put right what is marked.");
    await expect(form.getByLabel("Site", { exact: true })).toHaveAccessibleDescription("Choose the site.");
    await expect(form.getByLabel("Address of the calendar")).toHaveAccessibleDescription(/Only addresses that begin with https/);
    await expect(form.getByLabel("Name")).toHaveValue(name);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await form.getByLabel("Site", { exact: true }).selectOption({ index: 4 });
    // Within a private network: it is kept, and the next line says why nothing comes of it.
    await form.getByLabel("Address of the calendar").fill("http://192.168.250.250/12.ics");
    await form.getByRole("button", { name: "Add and read it now" }).click();
    const row = page.getByRole("listitem").filter({ hasText: name });
    await expect(row).toContainText("Could not be read: The address leads to this computer or into a private network");
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await page.getByRole("button", { name: `Read now: ${name}` }).click();
    await expect(page.getByRole("status").filter({ hasText: "Read again." })).toBeVisible();
    await page.getByRole("button", { name: `Remove: ${name}` }).click();
    await expect(page.getByRole("status").filter({ hasText: "Removed." })).toBeVisible();
    await expect(page.getByText(name)).toHaveCount(0);
  });

  test("finds the page among those the park is run from, and all of it within a narrow phone", async ({ page }) => {
    await page.goto("/manage/park");
    await page.getByRole("link", { name: "Calendars" }).click();
    await expect(page.getByRole("heading", { level: 1, name: "Calendars" })).toBeVisible();
    await page.setViewportSize({ width: 360, height: 780 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });

  test.describe("without script", () => {
    test.use({ javaScriptEnabled: false });
    test("is told the same, and what was entered is kept", async ({ page }) => {
      await page.goto("/manage/calendars");
      const form = page.locator("form").filter({ has: page.getByRole("button", { name: "Add and read it now" }) });
      await form.getByLabel("Site", { exact: true }).selectOption({ index: 4 });
      await form.getByLabel("Name").fill("Elsewhere");
      await form.getByRole("button", { name: "Add and read it now" }).click();
      await expect(form.getByLabel("Address of the calendar")).toHaveAccessibleDescription(/Enter the address of the calendar/);
      await expect(form.getByLabel("Name")).toHaveValue("Elsewhere");
      await expect(form.getByLabel("Site", { exact: true })).not.toHaveValue("");
    });
  });
});

test.describe("the desk", () => {
  test.use({ as: "desk" });
  test("is told that calendars are for managers", async ({ page }) => {
    await page.goto("/manage/calendars");
    await expect(page).toHaveURL(/\/for-managers$/);
  });
});
