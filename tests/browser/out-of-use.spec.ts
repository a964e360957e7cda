import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { openStays } from "./open-stays";
import { restoreFirst } from "./restore-first";

// Meanwhile the park has a site less: nothing else runs beside it (see playwright.config.ts).
test.use({ as: "manager" });

test("a site is not taken out of use under a stay, is out of every list once nobody is on it, and comes back", async ({ page, request }, info) => {
  test.setTimeout(240_000);
  const site = "d11";
  await restoreFirst(page, site);
  const [stay] = await openStays(request, info, 15, [{ site, name: "Staying on", rig: "demo-van-17" }]);
  const listed = async () => ((await (await request.get("/api/parks/quillback-meadow/sites")).json()) as { sites: { id: string }[] }).sites.some(({ id }) => id === site);
  try {
    await page.goto(`/manage/sites/${site}/history`);
    await page.getByRole("button", { name: "Take this site out of use…" }).click();
    const refused = page.getByRole("alert", { name: "It cannot be taken out of use yet" });
    await expect(refused.locator(`a[href="/desk/stays/${stay!.id}"]`)).toBeVisible({ timeout: 60_000 });
    await expectAccessible(page);
    await page.setViewportSize({ width: 360, height: 740 });
    await expectNoSideways(page);
    await page.getByRole("button", { name: "Take it out of use" }).click();
    await expect(refused).toBeVisible();
    await stay!.cancel();
    await page.reload();
    await expect(refused).toHaveCount(0);
    await page.getByRole("button", { name: "Take it out of use" }).click();
    await expect(page.getByText("This site is out of use.")).toBeVisible({ timeout: 60_000 });
    expect(await listed()).toBe(false);
  } finally {
    await stay!.cancel();
    await restoreFirst(page, site);
  }
  expect(await listed()).toBe(true);
});
