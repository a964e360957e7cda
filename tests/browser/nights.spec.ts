import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { openStays, type Opened } from "./open-stays";

test.use({ as: "desk" });

/** The ledger from the day before the stay, filtered to its guest, so that its bar is in sight. */
async function openLedger(page: Page, { arrive }: Opened, query = ""): Promise<void> {
  await page.goto(`/desk/nights?from=${arrive}&weeks=2&loop=B${query}`);
  await expect(page.locator("[data-live=live]")).toBeVisible();
}

const bar = (page: Page, name: string) => page.getByRole("link", { name: new RegExp(`^${name}`) });

test.describe("the ledger of nights", () => {
  test("shows who is where, in sight and in words, and as a plain table", async ({ page, request }, info) => {
    const stays = await openStays(request, info, 20, [{ site: "b05", name: "Orla Finch" }]);
    await openLedger(page, stays[0]!);
    await expect(bar(page, "Orla Finch")).toHaveAttribute("aria-label", /B-05, .*booked, /);
    await expectAccessible(page);
    await expectNoSideways(page);
    await page.getByRole("link", { name: "As a plain table" }).click();
    await expect(page.getByRole("row", { name: /B-05 .* Orla Finch Booked|B-05 .*Orla Finch.*booked/i })).toBeVisible();
    await expectAccessible(page);
    await stays[0]!.cancel();
  });

  test("the keyboard alone moves a stay to another site, each row saying free or taken and the fit, and back", async ({ page, request }, info) => {
    test.skip(info.project.name === "phone", "a phone has no keys");
    const stays = await openStays(request, info, 21, [{ site: "b05", name: "Bram Teal" }, { site: "b06", name: "Pim Stone" }]);
    await openLedger(page, stays[0]!);
    await bar(page, "Bram Teal").focus();
    await page.keyboard.press("Space");
    await expect(page.getByRole("status").filter({ hasText: "Bram Teal in hand: B-05" })).toBeVisible();
    await page.keyboard.press("ArrowDown");
    await expect(page.getByRole("status").filter({ hasText: /in hand: B-06, .* taken/ })).toBeVisible();
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    await expect(page.getByRole("status").filter({ hasText: /in hand: B-04, .* free · (fits|with gear)/ })).toBeVisible();
    await page.keyboard.press("Enter");
    // A guest who chose their site is moved with a reason alone.
    await page.getByLabel("Why?").fill("The water is off at B-05.");
    await page.getByRole("button", { name: "Move it" }).click();
    await expect(bar(page, "Bram Teal")).toHaveAttribute("aria-label", /B-04/);
    await page.getByRole("button", { name: "Undo the last move" }).click();
    await expect(bar(page, "Bram Teal")).toHaveAttribute("aria-label", /B-05/);
    // Escape leaves all as it was.
    await bar(page, "Bram Teal").focus();
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("status").filter({ hasText: "is back where it was" })).toBeVisible();
    for (const stay of stays) await stay.cancel();
  });

  test("a poor fit is taken on purpose, with a reason, by dragging", async ({ page, request }, info) => {
    test.skip(info.project.name === "phone", "a finger scrolls");
    const stays = await openStays(request, info, 22, [{ site: "b05", name: "Edda Loam" }]);
    await openLedger(page, stays[0]!);
    await bar(page, "Edda Loam").scrollIntoViewIfNeeded();
    const box = (await bar(page, "Edda Loam").boundingBox())!;
    await page.mouse.move(box.x + 20, box.y + 10);
    await page.mouse.down();
    await page.mouse.move(box.x + 20, box.y + 30, { steps: 3 });
    await page.mouse.move(box.x + 20, box.y + 10 + 34, { steps: 3 });
    await expect(page.getByRole("status").filter({ hasText: "in hand: B-06" })).toBeVisible();
    await page.mouse.up();
    await page.getByLabel("Why?").fill("They asked to stand beside their friends.");
    await page.getByRole("button", { name: "Move it" }).click();
    await expect(bar(page, "Edda Loam")).toHaveAttribute("aria-label", /B-06/);
    await stays[0]!.cancel();
  });

  test("what one desk does the other sees by itself", async ({ page, context, request }, info) => {
    const stays = await openStays(request, info, 23, [{ site: "b05", name: "Fay Rook" }]);
    const other = await context.newPage();
    await openLedger(page, stays[0]!);
    await openLedger(other, stays[0]!);
    await expect(bar(other, "Fay Rook")).toBeVisible();
    await stays[0]!.cancel();
    await expect(bar(other, "Fay Rook")).toHaveCount(0);
    await expect(bar(page, "Fay Rook")).toHaveCount(0);
  });

  test("a lost connection is said, and nothing is moved meanwhile", async ({ page, request, watch }, info) => {
    watch.allow(/ERR_FAILED/);
    const stays = await openStays(request, info, 24, [{ site: "b05", name: "Gus Peat" }]);
    // A stream that says it is there, and ends: as it is when the server goes.
    await page.route("/api/live", (route) => route.fulfill({ contentType: "text/event-stream", body: "retry: 300\n\nevent: linked\ndata: \n\n" }), { times: 1 });
    await page.route("/api/live", (route) => route.abort(), { times: 3 });
    await page.goto(`/desk/nights?from=${stays[0]!.arrive}&weeks=2&loop=B`);
    await expect(page.getByRole("alert").filter({ hasText: "Connection lost: this is how it stood at" })).toBeVisible();
    await expect(page.locator("[data-live=live]")).toBeVisible({ timeout: 20_000 });
    await stays[0]!.cancel();
  });

  test("closes a site and opens it again; a stay in the way is told", async ({ page, request }, info) => {
    const stays = await openStays(request, info, 25, [{ site: "b05", name: "Hal Wick" }]);
    await page.goto(`/desk/nights?from=${stays[0]!.arrive}&weeks=2`);
    await page.getByText("Close a site").click();
    const fill = async (site: string) => {
      await page.getByRole("combobox", { name: "Site", exact: true }).selectOption({ label: site });
      await page.getByLabel("First night closed").fill(stays[0]!.arrive);
      await page.getByLabel("Open again on").fill(stays[0]!.depart);
      await page.getByRole("textbox", { name: "Why", exact: true }).fill(`New gravel ${info.project.name}`);
      await page.getByRole("button", { name: "Close it" }).click();
    };
    await page.getByRole("button", { name: "Close it" }).click();
    await expect(page.getByText("Give a date.").first()).toBeVisible();
    await fill("B-05");
    await expect(page.getByText("Somebody has B-05 on one of these nights.")).toBeVisible();
    await fill("B-07");
    const line = page.getByRole("listitem").filter({ hasText: `New gravel ${info.project.name}` });
    await expect(line).toContainText("B-07");
    await line.getByRole("button", { name: "Open again B-07" }).click();
    await expect(line).toHaveCount(0);
    await stays[0]!.cancel();
  });

  test("without script there is the plain table", async ({ browser, request, baseURL }, info) => {
    const stays = await openStays(request, info, 26, [{ site: "b05", name: "Ina Sedge" }]);
    const { sessionFile } = await import("./fixtures");
    const context = await browser.newContext({ javaScriptEnabled: false, storageState: sessionFile("desk", baseURL!), baseURL: baseURL! });
    const page = await context.newPage();
    await page.goto(`/desk/nights?from=${stays[0]!.arrive}`);
    await page.getByRole("link", { name: "As a plain table" }).first().click();
    await expect(page.getByRole("row").filter({ hasText: "Ina Sedge" })).toBeVisible();
    await context.close();
    await stays[0]!.cancel();
  });
});
