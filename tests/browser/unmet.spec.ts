import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, sessionFile, test } from "./fixtures";
import { nightsOf } from "./open-stays";

test.use({ as: null });

/** Longer than any site takes. */
const rig = "kind=fifth-wheel&length=90+ft&units=ft-in";

test("what a guest looks for in vain is in the manager's list, counted, with who left word, until it is answered; erased, it still counts", async ({ page, browser, baseURL }, info) => {
  test.slow();
  const { arrive, depart } = nightsOf(info, 26, 3);
  const name = `Juna Fallow ${info.project.name} ${Date.now() % 1_000_000}`;
  await page.goto(`/sites?${rig}&arrive=${arrive}&depart=${depart}`);
  await page.getByLabel("Your name").fill(name);
  await page.getByLabel("Phone", { exact: true }).fill("555 010 2222");
  await page.getByLabel("Anything that would help (optional)").fill("A week later would do");
  await page.getByRole("button", { name: "Leave word" }).click();
  await expect(page.getByText("We have it. The desk will be in touch if something comes free. Nothing is booked.")).toBeVisible({ timeout: 30_000 });

  const context = await browser.newContext({ baseURL: baseURL!, storageState: sessionFile("manager", baseURL!), ...(info.project.name === "phone" ? { viewport: { width: 360, height: 740 } } : {}) });
  const managers = await context.newPage();
  await managers.goto("/manage/park");
  await managers.getByRole("link", { name: "Requests that found nothing" }).click();
  await expect(managers.getByRole("heading", { level: 1, name: "Requests that found nothing" })).toBeVisible();
  await expect(managers.getByText(/^\d+ requests? found nothing/)).toBeVisible();
  const counted = managers.getByRole("table", { name: "What stood in the way" }).first();
  await expect(counted.getByRole("row", { name: /^The (posted length limit|size of the pad) / }).first()).toContainText(/\d+ of \d+/);
  const row = managers.getByRole("listitem").filter({ hasText: name });
  await expect(row).toContainText("Fifth wheel, 90 ft");
  await expect(row).toContainText("No site fits. Turned away by");
  await expect(row).toContainText("A week later would do");
  await expect(row.getByRole("link", { name: "555 010 2222" })).toHaveAttribute("href", "tel:5550102222");
  await expectAccessible(managers);
  await expectNoSideways(managers);

  await managers.getByRole("combobox", { name: "Show" }).selectOption("Those still to be answered");
  await managers.getByRole("combobox", { name: "Asked in the last" }).selectOption("7 days");
  await managers.getByRole("button", { name: "Show", exact: true }).click();
  await expect(managers).toHaveURL(/days=7&which=open/, { timeout: 30_000 });
  await managers.getByRole("button", { name: `Mark as answered: ${name}` }).click();
  await expect(managers.getByText("Marked as answered.")).toBeVisible();
  await expect(row).toHaveCount(0);
  await managers.goto("/manage/unmet?which=word");
  await expect(row).toContainText(/Answered .+ by .+@/);

  await row.getByRole("link", { name: `Their data: ${name}` }).click();
  await expect(managers.getByRole("heading", { level: 1, name })).toBeVisible();
  await managers.getByRole("button", { name: "Erase …" }).click();
  await managers.getByLabel(/^To go on, type the name/).fill(name);
  await managers.getByRole("button", { name: "Erase for good" }).click();
  await expect(managers.getByText("Erased: 1 request that found nothing.")).toBeVisible();
  await managers.goto("/manage/unmet");
  await expect(managers.getByText(/^\d+ requests? found nothing/)).toBeVisible();
  expect(await managers.content()).not.toContain(name);
  await context.close();
});

test.describe("for the desk", () => {
  test.use({ as: "desk" });

  test("the list is the managers'", async ({ page }) => {
    await page.goto("/manage/unmet");
    await expect(page.getByRole("heading", { level: 1, name: "For managers" })).toBeVisible();
  });
});
