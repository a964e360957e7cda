import type { Page } from "@playwright/test";
import { expect, test } from "./fixtures";
import { expectAccessible, expectNoSideways } from "./expectations";
import { sendFiles, tableFile } from "./send-files";

test.use({ as: "manager" });

/** Before script is there the form is sent as it is without: then nothing is seen of the way. */
const untilScriptIsThere = async (page: Page) => {
  await page.waitForFunction(() => Object.keys(document.querySelector("form:has(#why)") ?? {}).some((key) => key.startsWith("__react")));
};

test("files are looked at, put right and read in, and the site's history says so", async ({ page }, { project }) => {
  test.slow();
  const site = project.name === "phone" ? { id: "e05", label: "E-05" } : { id: "e06", label: "E-06" }, guests = 8 + Math.floor(Math.random() * 900);
  await sendFiles(page, tableFile("sites.csv", `id;Max guests;Max length (ft)\n${site.id};many;34' 6"\nnowhere;2;\n`));
  await expect(page.getByRole("heading", { name: /things to put right/ })).toBeVisible();
  const faults = page.getByRole("table");
  await expect(faults).toContainText("row 2, “Max guests”");
  await expect(faults).toContainText("“many” is not a number.");
  await expect(page.getByRole("button", { name: "Read it in" })).toHaveCount(0);
  await expectAccessible(page);
  await expectNoSideways(page);

  await sendFiles(page, tableFile("sites.csv", `id;Max guests\n${site.id};${guests}\n`));
  await expect(page.getByText("Site: 1 changed")).toBeVisible();
  await expect(page.getByText(new RegExp(`max guests: \\d+ → ${guests}`))).toBeVisible();
  await expect(page.getByRole("heading", { name: "What it means for stays to come" })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByLabel("Why, for the record").fill("counted anew");
  await page.getByRole("button", { name: "Read it in" }).click();
  await expect(page.getByText("Read in. Site: 1 changed.")).toBeVisible({ timeout: 60_000 });
  // Once only: the address shows what was done, and has no button.
  await page.reload();
  await expect(page.getByRole("button", { name: "Read it in" })).toHaveCount(0);
  await page.goto(`/manage/sites/${site.id}/history`);
  await expect(page.getByText("counted anew").first()).toBeVisible();
});

test("while files are read in, a bar says how far it is, and it goes on when nobody looks", async ({ page, context, watch }, { project }) => {
  test.slow();
  watch.allow(/ERR_CONNECTION_RESET.*read-in/);
  const ids = project.name === "phone" ? ["a06", "a07", "a08"] : ["a09", "a10", "a11"], table = () => tableFile("sites.csv", `id;Max guests\n${ids.map((id) => `${id};${8 + Math.floor(Math.random() * 900)}\n`).join("")}`);
  await sendFiles(page, table());
  await untilScriptIsThere(page);
  const seen: { value: string | null; max: string | null; said: string }[] = [];
  await page.exposeFunction("keepSeen", (one: (typeof seen)[number]) => void seen.push(one));
  await page.evaluate(() => {
    new MutationObserver(() => {
      const bar = document.querySelector("form progress"), said = document.querySelector("form [role=status]")?.textContent ?? "";
      if (bar) (window as unknown as { keepSeen: (one: object) => void }).keepSeen({ value: bar.getAttribute("value"), max: bar.getAttribute("max"), said });
    }).observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
  });
  await page.getByRole("button", { name: "Read it in" }).click();
  await expect(page.getByText("Read in. Sites: 3 changed.")).toBeVisible({ timeout: 30_000 });
  expect(seen[0]!.value).toBeNull();
  expect(seen[0]!.said).toContain("None of it counts before all of it is saved.");
  expect(seen.at(-1)).toEqual({ value: "3", max: "3", said: "3 of 3 sites written. Finishing …" });

  // The connection breaks off after the button was pressed: the page says what to do, and what came of it is there.
  await sendFiles(page, table());
  await untilScriptIsThere(page);
  const address = page.url();
  await page.route("**/read-in", async (route) => {
    const { url, headers } = { url: route.request().url(), headers: await route.request().allHeaders() };
    const answer = await context.request.fetch(url, { method: "POST", headers, data: route.request().postDataBuffer()! });
    const lines = (await answer.text()).trim().split("\n").map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines).toEqual([{ done: 0, of: 3 }, { done: 3, of: 3 }, { to: new URL(address).pathname }]);
    await route.abort("connectionreset");
  });
  await page.getByRole("button", { name: "Read it in" }).click();
  await expect(page.getByRole("alert").filter({ hasText: "The connection broke off." })).toBeVisible({ timeout: 30_000 });
  await expectAccessible(page);
  await page.getByRole("link", { name: "Look what came of it" }).click();
  await expect(page.getByText("Read in. Sites: 3 changed.")).toBeVisible({ timeout: 30_000 });
});

test("from another page's form nothing is read in", async ({ page }) => {
  await sendFiles(page, tableFile("sites.csv", "id;Max guests\ne05;7\n"));
  const answer = await page.request.post(`${page.url()}/read-in`, { headers: { "sec-fetch-site": "cross-site" }, multipart: { seen: "", why: "" } });
  expect(answer.status()).toBe(403);
  // A page that saw something else than the files do now is told to look again.
  const stale = await page.request.post(`${page.url()}/read-in`, { headers: { "sec-fetch-site": "same-origin" }, multipart: { seen: "another", why: "" } });
  expect(await stale.text()).toBe(`${JSON.stringify({ to: `${new URL(page.url()).pathname}?said=changed` })}\n`);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });
  test("files are read in all the same", async ({ page }, { project }) => {
    test.slow();
    const id = project.name === "phone" ? "e02" : "e03";
    await sendFiles(page, tableFile("sites.csv", `id;Max guests\n${id};${8 + Math.floor(Math.random() * 900)}\n`));
    await page.getByRole("button", { name: "Read it in" }).click();
    await expect(page.getByText("Read in. Site: 1 changed.")).toBeVisible({ timeout: 30_000 });
  });
});

test("what is handed out is read back as no change", async ({ page }) => {
  test.slow();
  await page.goto("/manage/inventory");
  await expectAccessible(page);
  await expectNoSideways(page);
  for (const name of ["obstacles.csv", "sites.json"]) {
    // Somebody else may change a site between the two: then it is handed out anew.
    await expect(async () => {
      const answer = await page.request.get(`/manage/inventory/file/${name}`);
      expect(answer.headers()["content-disposition"]).toMatch(new RegExp(`attachment; filename=".+-${name}"`));
      await sendFiles(page, tableFile(name, await answer.body()));
      await expect(page.getByRole("region", { name: "What would change" })).toContainText("Nothing. The park is exactly as these files have it.", { timeout: 15_000 });
    }).toPass({ timeout: 150_000 });
  }
  await page.getByRole("button", { name: "Forget these files" }).click();
  await expect(page).toHaveURL(/\/manage\/inventory#in$/);
});

test("the place of the map is kept as typed where it cannot be read, and opens the map", async ({ page }) => {
  test.slow();
  await page.goto("/manage/inventory");
  await page.getByLabel("Latitude, degrees").fill("94");
  await page.getByLabel(/^Longitude/).fill("-74.8");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await expect(page.getByText("Write a latitude between -80 and 80, such as 43.6.")).toBeVisible();
  await expect(page.getByLabel("Latitude, degrees")).toHaveValue("94");
  await page.getByLabel("Latitude, degrees").fill("43.6");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await expect(page.getByText("Latitude 43.6°, longitude -74.8°, north turned by 0°.")).toBeVisible();
  const map = await page.request.get("/manage/inventory/file/sites.geojson");
  expect(((await map.json()) as { type: string }).type).toBe("FeatureCollection");
});

test("what is no inventory is refused with what to do", async ({ page }) => {
  test.slow();
  await sendFiles(page, tableFile("book.xlsx", Uint8Array.from([0x50, 0x4b, 3, 4])), tableFile("sites.csv", Uint8Array.from([0x69, 0x64, 10, 0xe9])), tableFile("rigs.json", `{"rigs":${"[".repeat(90_000)}`));
  await expect(page.getByRole("table")).toContainText("This is a workbook or a packed file.");
  await expect(page.getByRole("table")).toContainText("The text is not in UTF-8.");
  await expect(page.getByRole("table")).toContainText("lie too deep in each other");
});

test.describe("to the desk", () => {
  test.use({ as: "desk" });
  test("it is not handed out", async ({ page }) => {
    expect((await page.request.get("/manage/inventory/file/sites.csv")).status()).toBe(403);
    await page.goto("/manage/inventory");
    await expect(page).toHaveURL(/for-managers/);
  });
});
