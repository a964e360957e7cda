import type { APIRequestContext, Page } from "@playwright/test";
import { addDays, asDate, type IsoDate } from "@/lib/stays/dates";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { demoRig } from "./open-stays";

// The desktop alone saves rates, of days far from the nights that other tests are about, and takes them back.
test.describe.configure({ mode: "serial" });
test.use({ as: "manager" });

/** A 50 A site with all hookups. */
const site = "d03";
const today = asDate(new Date().toISOString().slice(0, 10));
/** Far from the nights that other tests are about. */
const farDay = addDays(today, 345);
const monthDay = (date: IsoDate) => new Date(`${date}T00:00:00Z`).toLocaleDateString("en-US", { month: "short", day: "numeric", year: "numeric", timeZone: "UTC" });

const part = (page: Page, name: string) => page.getByRole("group", { name, exact: true });
const review = (page: Page) => page.getByRole("region", { name: "What this changes" });

/** Looks at what changes and saves it; another project may have saved in between, then what it changes is looked at again. */
async function lookAndSave(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(page.getByRole("heading", { name: "What this changes" })).toBeFocused({ timeout: 30_000 });
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Rates", exact: true })).toBeVisible({ timeout: 30_000 });
}

/** What a guest is told a stay of two nights on a site costs. */
async function priceFor(page: Page, arrive: IsoDate): Promise<string> {
  const guest = await page.context().newPage();
  await guest.goto(`/sites/${site}?kind=travel-trailer&units=ft-in&arrive=${arrive}&depart=${addDays(arrive, 2)}`);
  const total = await guest.getByRole("row", { name: /^Total/ }).innerText();
  await guest.close();
  return total;
}

async function book(request: APIRequestContext, arrive: IsoDate): Promise<{ readonly stay: { readonly id: string; readonly total: number }; readonly link: { readonly token: string } }> {
  const answer = await request.post("/api/stays", { data: { park: "quillback-meadow", arrive, depart: addDays(arrive, 2), site: "d04", rig: demoRig(), guest: { name: "Rae Holt", phone: "555 010 0000" } } });
  expect(answer.status(), await answer.text()).toBe(201);
  return answer.json();
}

/** Adds a season to the form and fills it in. */
async function addSeason(page: Page, name: string, first: IsoDate, night: string): Promise<void> {
  await page.getByRole("button", { name: "Add a season" }).click();
  const season = part(page, "New season");
  await season.getByLabel("Name").fill(name);
  await season.getByLabel("First night").fill(monthDay(first));
  await season.getByLabel("Last night").fill(monthDay(addDays(first, 8)));
  await part(page, "Power, water and sewer, 50 A").getByLabel("New season: Night").fill(night);
}

test("every fault is told at once beside its field, and what other rates would change before anything is saved", async ({ page }) => {
  await page.goto("/manage/rates");
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByRole("link", { name: "Change the rates" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Change the rates" })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await addSeason(page, "", farDay, "ninety");
  const season = part(page, "New season"), cells = part(page, "Power, water and sewer, 50 A");
  await season.getByLabel("First night").fill("Febuary 30");
  await season.getByLabel("Last night").fill("");
  await season.getByLabel("Shortest stay, nights").fill("two");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(page.getByText("5 fields need another look. Nothing was saved.")).toBeVisible({ timeout: 30_000 });
  await expect(season.getByLabel("Name")).toHaveAccessibleDescription(/^Give it a name\./);
  await expect(season.getByLabel("First night")).toHaveAccessibleDescription(/^Enter a day such as Jun 12/);
  await expect(season.getByLabel("First night")).toHaveValue("Febuary 30");
  await expect(cells.getByLabel("New season: Night")).toHaveAccessibleDescription(/^Enter an amount such as 45/);
  await expectAccessible(page);
  await expectNoSideways(page);

  await season.getByLabel("Name").fill("Frost Days");
  await season.getByLabel("First night").fill(monthDay(farDay));
  await season.getByLabel("Last night").fill(monthDay(addDays(farDay, 3)));
  await season.getByLabel("Shortest stay, nights").fill("1");
  await cells.getByLabel("New season: Night").fill("$99");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(review(page)).toContainText("Power, water and sewer, 50 A, Frost Days: $99.00 a night", { timeout: 30_000 });
  await expect(review(page).getByRole("row", { name: /^Power, water and sewer, 50 A Frost Days \(before: .+\), from/ })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
});

test("a manager adds a holiday: new prices follow it, an agreed one does not", async ({ page, request }, info) => {
  test.skip(info.project.name === "phone", "one change of the park's rates at a time");
  const { stay: agreed, link } = await book(request, farDay);
  const before = await priceFor(page, farDay);
  await page.goto("/manage/rates/edit");
  await addSeason(page, "Meadow Days", farDay, "99");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  // Whoever changes something after looking sees what it changes now, before it is saved.
  await part(page, "Power, water and sewer, 50 A").getByLabel("Meadow Days: Night").fill("98");
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByText("You changed something after you looked.")).toBeVisible({ timeout: 30_000 });
  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Rates", exact: true })).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole("table").getByText("$98.00")).toBeVisible();
  expect(await priceFor(page, farDay)).not.toBe(before);
  const asAgreed = { headers: { Authorization: `Bearer ${link.token}` } };
  expect(await (await request.get(`/api/stays/${agreed.id}`, asAgreed)).json()).toMatchObject({ stay: { total: agreed.total } });
  await request.patch(`/api/stays/${agreed.id}`, { ...asAgreed, data: { state: "cancelled" } });

  await page.getByRole("link", { name: "Change the rates" }).click();
  await page.getByRole("button", { name: "Take out Meadow Days" }).click();
  await lookAndSave(page);
  expect(await priceFor(page, farDay)).toBe(before);
  const latest = page.getByRole("group").filter({ hasText: /^Card \d+/ }).first();
  await latest.getByText(/^Card \d+/).click();
  await expect(latest.getByText(/^Taken out: Meadow Days/)).toBeVisible();
});

test("rates that somebody else saved in between are told, before a look and after one, and nothing is lost", async ({ page, context }, info) => {
  test.skip(info.project.name === "phone", "one change of the park's rates at a time");
  const [other, late] = [await context.newPage(), await context.newPage()];
  await late.goto("/manage/rates/edit");
  await page.goto("/manage/rates/edit");
  const shortest = page.getByLabel("Shortest stay, nights").last();
  await shortest.fill("2");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(review(page)).toContainText("At any time: At least 2 nights.", { timeout: 30_000 });

  await other.goto("/manage/rates/edit");
  await other.getByRole("button", { name: "Add a fee" }).click();
  const fee = part(other, "this fee");
  await fee.getByLabel("Name").fill("Gate card");
  await fee.getByLabel("Amount").fill("0");
  await lookAndSave(other);

  await late.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(late.getByText("Somebody else saved rates while you edited.")).toBeVisible({ timeout: 30_000 });
  await expect(review(late)).toContainText("Taken out: Gate card: $0.00 a stay");

  await page.getByRole("button", { name: "Save these rates" }).click();
  await expect(page.getByText("Somebody else saved rates while you edited.")).toBeVisible({ timeout: 30_000 });
  await expect(review(page)).toContainText("Taken out: Gate card: $0.00 a stay");
  await expect(shortest).toHaveValue("2");
  await shortest.fill("1");
  await lookAndSave(page);
  await expect(page.getByText("Gate card").filter({ visible: true })).toHaveCount(0);
});

test("rates as they are cannot be saved again", async ({ page }, info) => {
  test.skip(info.project.name === "phone", "another project may save in between");
  await page.goto("/manage/rates/edit");
  await page.getByRole("button", { name: "Show what changes" }).last().click();
  await expect(page.getByText("Nothing: these are the rates as they are.")).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole("button", { name: "Save these rates" })).toHaveCount(0);
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
