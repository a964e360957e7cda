import type { Page } from "@playwright/test";
import { addDays, asDate, type IsoDate } from "@/lib/stays/dates";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { openStays } from "./open-stays";

// Each project changes the prices of days of its own, far from the nights that other tests are about, and takes them back.
test.describe.configure({ mode: "serial" });
test.use({ as: "manager" });

const today = asDate(new Date().toISOString().slice(0, 10));
const monthDay = (date: IsoDate) => new Date(`${date}T00:00:00Z`).toLocaleDateString("en-US", { month: "short", day: "numeric", year: "numeric", timeZone: "UTC" });

const part = (page: Page, name: string) => page.getByRole("group", { name, exact: true });
const review = (page: Page) => page.getByRole("region", { name: "What this changes" });

/** Looks at what changes and saves it; another project may have saved in between, then what it changes is looked at again. */
async function lookAndSave(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(page.getByRole("heading", { name: "What this changes" })).toBeFocused();
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Rates" })).toBeVisible();
}

async function total(page: Page, arrive: IsoDate): Promise<string> {
  const answer = await page.request.get(`/api/parks/quillback-meadow/availability?arrive=${arrive}&depart=${addDays(arrive, 2)}`);
  const { sites } = (await answer.json()) as { sites: { id: string; quote?: { total: number } | null }[] };
  return JSON.stringify(sites.find(({ id }) => id === "d03"));
}

test("a manager adds a holiday: what it changes is shown first, new prices follow it, an agreed one does not", async ({ page, request }, info) => {
  test.setTimeout(120_000);
  test.skip(info.project.name === "phone", "one change of the park's rates at a time");
  const first = addDays(today, 330), last = addDays(first, 8);
  const [agreed] = await openStays(request, info, 29, [{ site: "d03", name: "Rae Holt" }]);
  await page.goto("/manage/rates");
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByRole("link", { name: "Change the rates" }).click();
  await expectAccessible(page);
  await expectNoSideways(page);

  await page.getByRole("button", { name: "Add a season" }).click();
  const season = part(page, "New season");
  await season.getByLabel("First night").fill("Febuary 30");
  await season.getByLabel("Shortest stay, nights").fill("two");
  const cells = part(page, "Power, water and sewer, 50 A");
  await cells.getByLabel("New season: Night").fill("ninety");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(page.getByText("5 fields need another look. Nothing was saved.")).toBeVisible();
  await expect(season.getByLabel("Name")).toHaveAccessibleDescription(/^Give it a name\./);
  await expect(season.getByLabel("First night")).toHaveAccessibleDescription(/^Enter a day such as Jun 12/);
  await expect(season.getByLabel("First night")).toHaveValue("Febuary 30");
  await expect(cells.getByLabel("New season: Night")).toHaveAccessibleDescription(/^Enter an amount such as 45/);

  await season.getByLabel("Name").fill("Meadow Days");
  await season.getByLabel("First night").fill(monthDay(first));
  await season.getByLabel("Last night").fill(monthDay(last));
  await season.getByLabel("Shortest stay, nights").fill("1");
  await cells.getByLabel("New season: Night").fill("$99");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(review(page)).toContainText("New: Power, water and sewer, 50 A, Meadow Days: $99.00 a night");
  await expect(review(page).getByRole("row", { name: /^Power, water and sewer, 50 A Meadow Days/ }).first()).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);

  // Whoever changes something after looking sees what it changes now, before it is saved.
  await part(page, "Power, water and sewer, 50 A").getByLabel("Meadow Days: Night").fill("98");
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByText("You changed something after you looked.")).toBeVisible();
  const before = await total(page, first);
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Rates" })).toBeVisible();
  await expect(page.getByRole("table").getByText("$98.00")).toBeVisible();
  expect(await total(page, first)).not.toBe(before);
  const read = await request.get(`/api/stays/${agreed!.id}`, { headers: { Authorization: `Bearer ${agreed!.token}` } });
  const { stay } = (await read.json()) as { stay: { total: number } };
  await agreed!.cancel();

  await page.getByRole("link", { name: "Change the rates" }).click();
  await page.getByRole("button", { name: "Take out Meadow Days" }).click();
  await lookAndSave(page);
  expect(await total(page, first)).toBe(before);
  expect(stay.total).toBeGreaterThan(0);
  await page.getByText(/^Card \d+/).nth(1).click();
  await expect(page.getByText(/^Taken out: Meadow Days/)).toBeVisible();
});

test("rates that somebody else saved in between are told, and nothing is lost", async ({ page, context }, info) => {
  test.skip(info.project.name === "phone", "one change of the park's rates at a time");
  await page.goto("/manage/rates/edit");
  const other = await context.newPage();
  await other.goto("/manage/rates/edit");
  await other.getByRole("button", { name: "Add a fee" }).click();
  await other.getByLabel("Name").last().fill("Gate card");
  await part(other, "Fees").last().getByLabel("Amount").last().fill("0");
  await lookAndSave(other);

  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByText("Somebody else saved rates while you edited.")).toBeVisible();
  await expect(review(page)).toContainText("Taken out: Gate card: $0.00 a stay");
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Rates" })).toBeVisible();
  await expect(page.getByText("Gate card")).toHaveCount(0);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("rows are added and changes shown all the same, and Enter saves nothing", async ({ page }) => {
    await page.goto("/manage/rates/edit");
    await page.getByRole("button", { name: "Add a tax" }).click();
    const tax = part(page, "this tax");
    await tax.getByLabel("Name").fill("Lake tax");
    await tax.getByLabel("Percent").fill("1.5");
    await tax.getByLabel("Percent").press("Enter");
    await expect(review(page)).toContainText("New: Lake tax: 1.5% of nights and extras");
    await expectNoSideways(page);
    await page.goto("/manage/rates");
    await expect(page.getByText("Lake tax")).toHaveCount(0);
  });
});

test.describe("for the desk", () => {
  test.use({ as: "desk" });

  test("rates are a manager's", async ({ page }) => {
    await page.goto("/manage/rates");
    await expect(page).toHaveURL(/\/for-managers$/);
    await page.goto("/manage/park");
    await expect(page.getByRole("link", { name: "Rates" })).toHaveCount(0);
  });
});
