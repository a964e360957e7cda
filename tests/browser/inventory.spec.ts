import type { Page } from "@playwright/test";
import { expect, test } from "./fixtures";
import { expectAccessible, expectNoSideways } from "./expectations";

test.use({ as: "manager" });

const csv = (name: string, text: string | Uint8Array) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
const send = async (page: Page, ...files: ReturnType<typeof csv>[]) => {
  await page.goto("/manage/inventory");
  await page.getByLabel("Files", { exact: true }).setInputFiles(files);
  await page.getByRole("button", { name: "Show what it would do" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "What these files would do" })).toBeVisible();
};

test("files are looked at, put right and read in, and the site's history says so", async ({ page }, { project }) => {
  test.slow();
  const site = project.name === "phone" ? { id: "e05", label: "E-05" } : { id: "e06", label: "E-06" }, guests = 8 + Math.floor(Math.random() * 900);
  await send(page, csv("sites.csv", `id;Max guests;Max length (ft)\n${site.id};many;34' 6"\nnowhere;2;\n`));
  await expect(page.getByRole("heading", { name: /things to put right/ })).toBeVisible();
  const faults = page.getByRole("table");
  await expect(faults).toContainText("row 2, “Max guests”");
  await expect(faults).toContainText("“many” is not a number.");
  await expect(page.getByRole("button", { name: "Read it in" })).toHaveCount(0);
  await expectAccessible(page);
  await expectNoSideways(page);

  await send(page, csv("sites.csv", `id;Max guests\n${site.id};${guests}\n`));
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
      await send(page, csv(name, await answer.body()));
      await expect(page.getByRole("region", { name: "What would change" })).toContainText("Nothing. The park is exactly as these files have it.", { timeout: 2_000 });
    }).toPass({ timeout: 60_000 });
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
  await send(page, csv("book.xlsx", Uint8Array.from([0x50, 0x4b, 3, 4])), csv("sites.csv", Uint8Array.from([0x69, 0x64, 10, 0xe9])), csv("rigs.json", `{"rigs":${"[".repeat(90_000)}`));
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
