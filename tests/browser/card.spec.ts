import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { openStays } from "./open-stays";

test("a guest opens the arrival card from the private page, on the phone and as a PDF, and goes on reading without signal", async ({ page, request, context }, info) => {
  const [stay] = await openStays(request, info, 29, [{ site: "c04", name: "Iris Quince" }]);
  await page.goto(`/stay/${stay!.token}`);
  await page.getByRole("link", { name: "Arrival card" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Arrival card: site C-04");
  await expect(page.getByText("If you cannot see your helper, stop.")).toBeVisible();
  await expect(page.getByRole("img", { name: /^From behind, side to side/ })).toBeVisible();
  await expect(page.getByRole("img", { name: "Scan to open this card on a phone" })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);

  const address = await page.getByRole("link", { name: "PDF, US letter" }).getAttribute("href");
  const pdf = await request.get(address!);
  expect([pdf.status(), pdf.headers()["content-type"], pdf.headers()["cache-control"]]).toEqual([200, "application/pdf", "no-store"]);
  expect((await pdf.body()).subarray(0, 5).toString()).toBe("%PDF-");

  await context.setOffline(true);
  await page.getByRole("heading", { name: "When you leave" }).scrollIntoViewIfNeeded();
  await expect(page.getByText(/Walk all the way around/)).toBeVisible();
  await context.setOffline(false);
  await stay!.cancel();
  for (const path of ["card", "card.pdf"]) expect((await request.get(`/stay/${stay!.token}/${path}`)).status()).toBe(404);
});

test("any rig has a card on a site it fits, before anything is booked, and none where it does not", async ({ page, request }) => {
  const rig = "kind=travel-trailer&units=metric";
  await page.goto(`/sites/c04?${rig}`);
  await page.getByRole("link", { name: /^Arrival card/ }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Arrival card: site C-04");
  await expect(page.getByText(/The left side is low. Raise it \d+\scm/)).toBeVisible();
  await expectNoSideways(page);
  for (const path of ["/sites/nowhere/card", "/sites/nowhere/card.pdf", "/sites/c04/card"]) expect((await request.get(`${path}${path.includes("c04") ? "" : `?${rig}`}`)).status(), path).toBe(404);
});

test("prints on paper without buttons, every step whole", async ({ page }) => {
  await page.goto("/sites/c04/card?kind=travel-trailer&units=ft-in");
  await page.emulateMedia({ media: "print" });
  await expect(page.getByRole("link", { name: "PDF, A4" })).toBeHidden();
  await expect(page.getByText("Unhitch", { exact: true })).toBeVisible();
});
