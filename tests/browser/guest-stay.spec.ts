import ICAL from "ical.js";
import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { nightsOf, openStays } from "./open-stays";

const rig = "kind=travel-trailer";

/** From a rig and dates to the first free site's page. */
async function openSite(page: Page, { arrive, depart }: { arrive: string; depart: string }): Promise<void> {
  await page.goto(`/sites?${rig}&units=ft-in&arrive=${arrive}&depart=${depart}`);
  await expect(page.getByText(/sites? that fits? (is|are) free|sites that fit are free/).first()).toBeVisible();
  await page.locator("#sites h3 a").first().click();
  await expect(page.getByText("Free for your nights.")).toBeVisible();
}

async function hold(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Hold this site for 20 minutes" }).click();
  await expect(page).toHaveURL(/\/stay\/[\w-]{43}$/);
  await expect(page.getByRole("heading", { level: 1, name: "We are holding this site for you" })).toBeVisible();
}

test("a guest goes from dates to a booked stay, keeps it in a calendar, and cancels it under the terms", async ({ page, request }, info) => {
  await openSite(page, nightsOf(info, 10));
  await expect(page.getByRole("row", { name: /^Total/ })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await hold(page);
  await expect(page.getByText(/minutes left/)).toBeVisible();
  await page.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(page.getByText("Enter your name.")).toBeVisible();
  await expect(page.getByText("Enter an e-mail address or a phone number, so that we can reach you.")).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByLabel("Your name").fill("Lena Brook");
  await page.getByLabel("E-mail", { exact: true }).fill("lena");
  await page.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(page.getByText("Enter a whole address, such as pat@example.com.")).toBeVisible();
  await expect(page.getByLabel("Your name")).toHaveValue("Lena Brook");
  await page.getByLabel("E-mail", { exact: true }).fill("lena@example.com");
  await page.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Your stay is booked" })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);

  const { arrive, depart } = nightsOf(info, 10);
  const file = await request.get(`${page.url()}/calendar.ics`);
  expect(file.headers()["content-type"]).toContain("text/calendar");
  const event = new ICAL.Component(ICAL.parse(await file.text()) as never).getFirstSubcomponent("vevent")!;
  expect([event.getFirstPropertyValue("dtstart")!.toString(), event.getFirstPropertyValue("dtend")!.toString()]).toEqual([arrive, depart]);
  expect(event.getFirstPropertyValue("status")).toBe("CONFIRMED");

  await page.getByRole("link", { name: "Cancel this stay" }).click();
  await expect(page.getByRole("heading", { name: "Cancel this stay?" })).toBeVisible();
  await expect(page.getByText("The park keeps $10.00.").first()).toBeVisible();
  await page.getByRole("button", { name: "Yes, cancel it" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "This stay is canceled" })).toBeVisible();
});

test("two guests race for one site: the second is told, and what else is free", async ({ page, browser, baseURL }, info) => {
  const nights = nightsOf(info, 11);
  await openSite(page, nights);
  const other = await (await browser.newContext({ baseURL: baseURL! })).newPage();
  await other.goto(page.url());
  await hold(page);
  await other.getByRole("button", { name: "Hold this site for 20 minutes" }).click();
  await expect(other.getByText("Somebody was faster: this site was taken a moment ago.")).toBeVisible();
  await other.reload();
  await expect(other.getByText("Taken for these nights.").first()).toBeVisible();
  await expect(other.getByText("Free for your nights, and your rig fits")).toBeVisible();
  await other.context().close();
  await page.getByRole("button", { name: "I do not need it" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "This stay is canceled" })).toBeVisible();
});

test("without script a site is held and booked all the same", async ({ browser, baseURL }, info) => {
  const page = await (await browser.newContext({ baseURL: baseURL!, javaScriptEnabled: false })).newPage();
  await openSite(page, nightsOf(info, 12));
  await hold(page);
  await page.getByLabel("Your name").fill("Lena Brook");
  await page.getByLabel("Phone", { exact: true }).fill("555 010 0000");
  await page.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Your stay is booked" })).toBeVisible();
  await page.getByRole("link", { name: "Cancel this stay" }).click();
  await page.getByRole("button", { name: "Yes, cancel it" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "This stay is canceled" })).toBeVisible();
  await page.context().close();
});

test("a link that leads nowhere says so and nothing else, with 404", async ({ page, request, watch }, info) => {
  watch.allow(/404/);
  const stays = await openStays(request, info, 28, [{ site: "b05", name: "Ned Holt" }]);
  const wrong = stays[0]!.token.replace(/^./, (letter) => (letter === "A" ? "B" : "A"));
  const answer = await page.goto(`/stay/${wrong}`);
  expect(answer!.status()).toBe(404);
  await expect(page.getByRole("heading", { name: "This link leads to no stay" })).toBeVisible();
  expect((await request.get(`/stay/${wrong}/calendar.ics`)).status()).toBe(404);
  await stays[0]!.cancel();
});

test("dates that cannot be are told beside their fields and kept", async ({ page }) => {
  await page.goto(`/sites?${rig}&units=ft-in&arrive=2027-06-20&depart=2027-06-18`);
  await expect(page.getByText("This is before the day you arrive.")).toBeVisible();
  await expect(page.getByLabel("Arrive")).toHaveValue("2027-06-20");
  await page.goto(`/sites?${rig}&units=ft-in&arrive=2020-06-20&depart=2020-06-22`);
  await expect(page.getByText(/The first night has passed/)).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
});

test("who has no favorite takes any site that fits, and the desk still has it to assign", async ({ page, browser, baseURL }, info) => {
  const { arrive, depart } = nightsOf(info, 7);
  await page.goto(`/sites?${rig}&units=ft-in&arrive=${arrive}&depart=${depart}`);
  await page.getByRole("link", { name: "Take any site that fits" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Any site that fits");
  const free = async () => Number(/^(\d+) free site/.exec((await page.getByText(/free sites? fits?\./).innerText()).trim())![1]);
  const before = await free();
  await page.getByLabel("Sewer").check();
  await page.getByRole("button", { name: "Show the price" }).click();
  await expect(page.getByText("Any loop, with power, water and sewer")).toBeVisible();
  const left = await free();
  expect(left).toBeLessThan(before);
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(page.getByText("Enter your name.")).toBeVisible();
  await page.getByLabel("Your name").fill("Noor Fen");
  await page.getByLabel("Phone").fill("555 010 0199");
  await page.getByRole("button", { name: /^Book it for \$/ }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Your stay is booked" })).toBeVisible();
  await expect(page.getByText("Any loop, with power, water and sewer")).toBeVisible();
  await expectNoSideways(page);

  const mine = page.url();
  const other = await browser.newPage({ baseURL: baseURL! });
  await other.goto(`/stay/any?${rig}&units=ft-in&arrive=${arrive}&depart=${depart}&chosen=1&service=power&service=water&service=sewer`);
  // One of them is spoken for, though nobody knows which yet.
  await expect(other.getByText(`${left - 1} free sites fit.`)).toBeVisible();
  await other.close();
  await page.goto(`${mine}?cancel=1`);
  await page.getByRole("button", { name: "Yes, cancel it" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "This stay is canceled" })).toBeVisible();
});

test("who gave a site back holds it again from the same page, while it is free", async ({ page }, info) => {
  await openSite(page, nightsOf(info, 27, 3));
  await hold(page);
  await page.getByRole("button", { name: "I do not need it" }).click();
  await expect(page.getByText("Nothing was booked, and nothing is owed.")).toBeVisible();
  await expect(page.getByRole("heading", { name: "Free for your nights, and your rig fits" })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByRole("link", { name: "Hold it again" }).click();
  await hold(page);
  await page.getByRole("button", { name: "I do not need it" }).click();
  await expect(page.getByText("Nothing was booked, and nothing is owed.")).toBeVisible();
});

test("a rig that does not fit the site is not taken in the other's place, and what would is told", async ({ page, request }, info) => {
  const [stay] = await openStays(request, info, 7, [{ site: "e04", name: "Otto Bright", rig: "demo-van-17" }]);
  await page.goto(`/stay/${stay!.token}`);
  await page.getByRole("link", { name: "Change the rig or who comes" }).click();
  await page.getByText("Another kind", { exact: true }).click();
  await page.getByRole("link", { name: "Fifth wheel" }).click();
  await page.getByRole("button", { name: "Check it against my site" }).click();
  await expect(page.getByRole("status").filter({ hasText: "It does not fit on site E-04, so nothing was changed." })).toBeVisible();
  await expect(page.getByRole("button", { name: "Change it" })).toHaveCount(0);
  await expect(page.getByText("It would fit on these, and they are free for your nights")).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await page.getByRole("link", { name: "Back to the stay" }).click();
  await expect(page.getByText(/^Van, /)).toBeVisible();
  await stay!.cancel();
});
