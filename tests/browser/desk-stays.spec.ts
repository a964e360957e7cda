import type { Page } from "@playwright/test";
import { addDays, asDate } from "@/lib/stays/dates";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { nightsOf, openStays } from "./open-stays";

test.use({ as: "desk" });

/** Today in the demo park's zone. */
const today = () => asDate(new Intl.DateTimeFormat("en-CA", { timeZone: "America/New_York" }).format(new Date()));

/** Types as at a keyboard, and counts the keys that are not text. */
function keyboard(page: Page) {
  let keys = 0;
  return {
    type: (text: string) => page.keyboard.type(text),
    press: async (key: string) => { keys++; await page.keyboard.press(key); },
    count: () => keys,
  };
}

async function cancelHere(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Cancel", exact: true }).click();
  await expect(page.getByText("Canceled", { exact: true }).first()).toBeVisible();
}

test("a phone booking by the keyboard alone takes at most 25 keys beyond the text", async ({ page }, info) => {
  test.skip(info.project.name === "phone", "a phone has no keys");
  const { arrive } = nightsOf(info, 0);
  await page.goto("/desk/new");
  const keys = keyboard(page);
  await keys.type("tt 31");
  await keys.press("Tab");
  await keys.type(arrive);
  await keys.press("Tab");
  await keys.type("2");
  await keys.press("Enter");
  await expect(page.getByLabel("Name")).toBeFocused();
  await expect(page.getByText("Travel trailer, 31 ft.")).toBeVisible();
  await keys.type("Ada Thorn");
  await keys.press("Tab");
  await keys.type("555 010 4711");
  await keys.press("Tab");
  await keys.type("QM 808");
  await keys.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Ada Thorn" })).toBeVisible();
  expect(keys.count()).toBeLessThanOrEqual(25);
  await expect(page.getByText("Booked", { exact: true })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await cancelHere(page);
});

test("free sites show while the caller is asked, a site is chosen by its label, and other dates lose nothing that was typed", async ({ page }, info) => {
  test.skip(info.project.name === "phone", "a phone has no keys");
  const { arrive } = nightsOf(info, 5);
  await page.goto("/desk/new", { waitUntil: "networkidle" });
  await page.keyboard.type("van 19");
  await page.keyboard.press("Tab");
  await page.keyboard.type(arrive);
  await page.keyboard.press("Tab");
  await page.keyboard.type("2");
  await expect(page.getByText("(2 nights)")).toBeVisible();
  await expect(page.getByLabel("Nights or depart")).toBeFocused();
  await page.getByLabel("Name").fill("Bram Sedge");
  await page.getByRole("radio", { name: /^[A-Z]-\d\d / }).first().focus();
  await page.keyboard.type("b05");
  await expect(page.getByRole("radio", { name: /^B-05 / })).toBeChecked();
  await expect(page.getByRole("radio", { name: /^B-05 / })).toBeFocused();
  await page.getByLabel("Nights or depart").fill("3");
  await page.keyboard.press("Enter");
  await expect(page.getByText("(3 nights)")).toBeVisible();
  await expect(page.getByLabel("Name")).toBeFocused();
  await expect(page.getByLabel("Name")).toHaveValue("Bram Sedge");
  await page.getByLabel("Nights or depart").fill("never");
  await page.keyboard.press("Enter");
  await expect(page.getByText("Not a day we can read: try jun 18, 6/18, fri or +3.")).toBeVisible();
  await expect(page.getByLabel("Nights or depart")).toBeFocused();
});

test("the key / goes to the search from a page of the desk, and is a letter where one types", async ({ page }, info) => {
  test.skip(info.project.name === "phone", "a phone has no keys");
  // The key is heard once the page's script is there.
  const pressUntil = async (done: () => Promise<void>) => expect(async () => {
    await page.keyboard.press("/");
    await done();
  }).toPass({ timeout: 60_000 });
  await page.goto("/desk", { waitUntil: "networkidle" });
  await pressUntil(() => expect(page.getByRole("searchbox")).toBeFocused({ timeout: 1_000 }));
  await page.getByRole("searchbox").fill("");
  await page.keyboard.type("6/18");
  await expect(page.getByRole("searchbox")).toHaveValue("6/18");
  await page.goto("/desk/nights", { waitUntil: "networkidle" });
  await pressUntil(() => expect(page).toHaveURL(/\/desk\/find$/, { timeout: 3_000 }));
});

test("what cannot be read is told beside its field, all at once, and kept", async ({ page }) => {
  await page.goto("/desk/new?call=boat&arrive=soon&depart=2&adults=x");
  await expect(page.getByText("Type a kind and a length, such as tt 31 or class a 34.")).toBeVisible();
  await expect(page.getByText("Not a day we can read: try jun 18, 6/18, fri or +3.")).toBeVisible();
  await expect(page.getByText("0 to 30.")).toBeVisible();
  await expect(page.getByLabel("Kind and length")).toHaveValue("boat");
  await expectAccessible(page);
  await expectNoSideways(page);
});

test("a walk-in arrives, borrows, is noted, leaves, and how it went is on the site's page", async ({ page }, info) => {
  const name = `Wim Gorse ${info.project.name} ${Date.now() % 100_000}`;
  await page.goto(`/desk/new?call=van+19&arrive=today&depart=1&loop=${info.project.name === "phone" ? "C" : "D"}`);
  await page.getByLabel("Name").fill(name);
  await page.getByLabel("Save it as").selectOption("arrived");
  await page.getByRole("button", { name: "Save the stay" }).click();
  await expect(page.getByRole("heading", { level: 1, name })).toBeVisible();
  const site = await page.locator('a[href^="/manage/sites/"]').first().textContent();
  await page.getByRole("form", { name: "Lend" }).getByRole("combobox").selectOption({ index: 3 });
  await page.getByRole("form", { name: "Lend" }).getByRole("button").click();
  await expect(page.getByText(/Drinking-water hose, 25 ft, lent/)).toBeVisible();
  await expect(page.getByText("They still have something of ours.")).toBeVisible();
  await page.getByLabel("Note", { exact: true }).fill("Key is in the box.");
  await page.getByRole("button", { name: "Write it down" }).click();
  await expect(page.getByText("Key is in the box.")).toBeVisible();
  await page.goto("/desk");
  const row = page.getByRole("listitem").filter({ hasText: name });
  await expect(row).toContainText("has Drinking-water hose, 25 ft of ours");
  await expectAccessible(page);
  await expectNoSideways(page);
  await row.getByRole("link", { name }).click();
  await page.getByRole("button", { name: "Is back" }).click();
  await expect(page.getByText(/, back /)).toBeVisible();
  await page.getByLabel("How did it go?").selectOption("too-tight");
  await page.getByLabel("What happened").fill("The mirror touched the post.");
  await page.getByRole("button", { name: "They have left" }).click();
  await expect(page.getByText("Too tight: The mirror touched the post.")).toBeVisible();
  await page.goto(`/manage/sites/${site!.toLowerCase().replace("-", "")}`);
  await expect(page.getByText("The mirror touched the post.").first()).toBeVisible();
});

test("the desk gives another site, a poor one with a reason alone, and other nights with their price", async ({ page, request }, info) => {
  const stays = await openStays(request, info, 2, [{ site: "b05", name: `Rue Hatch ${info.project.name}` }]);
  await page.goto(`/desk/stays/${stays[0]!.id}`);
  await expect(page.getByText("The guest chose this site and keeps it.")).toBeVisible();
  const usual = page.viewportSize()!;
  await page.setViewportSize({ width: 360, height: 740 });
  await expectNoSideways(page);
  await page.setViewportSize(usual);
  const moving = page.getByRole("form", { name: "Another site" });
  await moving.getByText("Free, but a poor fit").click();
  await moving.getByRole("radio", { name: /E-08/ }).check();
  await moving.getByRole("button", { name: "Put them on" }).click();
  await expect(moving.getByRole("alert")).toContainText("Say why they are put there all the same.");
  await moving.getByLabel(/^Why/).fill("They leave the trailer at the barn.");
  await moving.getByRole("button", { name: "Put them on" }).click();
  await expect(page.getByText(/Taken in spite of the fit \(does not fit\): They leave the trailer at the barn\./)).toBeVisible();
  const total = page.getByRole("row", { name: /^Total/ });
  const before = await total.textContent();
  await page.getByLabel("Depart").fill(addDays(asDate(stays[0]!.depart), 1));
  await page.getByRole("button", { name: "Change nights" }).click();
  await expect(page.getByText(/the added nights cost \$\d+\.\d\d\./)).toBeVisible();
  await expect(total).toHaveText(before!);
  await page.getByRole("button", { name: "Change the nights at this price" }).click();
  await expect(page.getByText("(3 nights)")).toBeVisible();
  await expect(total).not.toHaveText(before!);
  await expect(page.getByText(/changed departure|changed depart/)).toBeVisible();
  await stays[0]!.cancel();
});

test("the rig at the gate is not the rig that was booked: it is judged, and other sites are offered", async ({ page, request }, info) => {
  const stays = await openStays(request, info, 3, [{ site: "b05", name: `Sil Fern ${info.project.name}` }]);
  await page.goto(`/desk/stays/${stays[0]!.id}`);
  const rig = page.getByRole("form", { name: "Another rig at the gate" });
  await rig.getByLabel("Kind and length").fill("a boat");
  await rig.getByRole("button").click();
  await expect(rig.getByRole("alert")).toContainText("Type a kind and a length");
  await rig.getByLabel("Kind and length").fill("van 19");
  await rig.getByRole("button").click();
  await expect(page.getByText(/^Van, 19 ft/)).toBeVisible();
  await stays[0]!.cancel();
});

test("finds a stay by name, plate, site, reference and phone", async ({ page, request }, info) => {
  const stays = await openStays(request, info, 4, [{ site: "b05", name: `Quen Marl ${info.project.name}` }]);
  for (const text of [`quen ${info.project.name}`, `marl b-05 ${info.project.name}`]) {
    await page.goto(`/desk/find?q=${encodeURIComponent(text)}`);
    await expect(page.getByRole("link", { name: `Quen Marl ${info.project.name}` }).first()).toBeVisible();
  }
  await page.goto("/desk/find?q=nobody-of-that-name");
  await expect(page.getByText("Nothing for “nobody-of-that-name”.")).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  await stays[0]!.cancel();
});

test("a day's list prints on paper without its buttons", async ({ page }) => {
  await page.goto(`/desk?day=${today()}`);
  await page.emulateMedia({ media: "print" });
  await expect(page.getByRole("button", { name: "Show" })).toBeHidden();
  await expect(page.getByRole("heading", { name: /Arriving/ })).toBeVisible();
});

test("two desks race for one site: one has it, the other is told, with what was typed kept", async ({ page, context }, info) => {
  const { arrive, depart } = nightsOf(info, 8);
  const other = await context.newPage(), desks = [page, other];
  for (const [i, desk] of desks.entries()) {
    await desk.goto(`/desk/new?call=tt+31&arrive=${arrive}&depart=${depart}&site=d03`);
    await desk.getByRole("radio", { name: /^D-03/ }).check();
    await desk.getByLabel("Name").fill(["Ivo Reed", "Una Reed"][i]!);
    await desk.getByLabel("Phone").fill("555 010 0170");
  }
  await Promise.all(desks.map((desk) => desk.getByRole("button", { name: "Save the stay" }).click()));
  const told = (desk: Page) => desk.getByRole("alert").filter({ hasText: /^Somebody has D-03 on one of these nights\. \d+ sites? (is|are) still free\./ });
  const has = (desk: Page) => desk.getByRole("heading", { level: 1, name: / Reed$/ });
  for (const desk of desks) await expect(told(desk).or(has(desk))).toBeVisible();
  const [winner, loser] = (await told(page).isVisible()) ? [other, page] : [page, other];
  await expect(has(winner)).toBeVisible();
  await expect(loser.getByLabel("Name")).toHaveValue(/^(Ivo|Una) Reed$/);
  await expect(loser.getByLabel("Phone")).toHaveValue("555 010 0170");
  await cancelHere(winner);
  await other.close();
});
