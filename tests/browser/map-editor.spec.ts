import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "./fixtures";
import { far, Fingers, middleOf } from "./touch";

test.use({ as: "manager" });

test("a site is turned by typing and by keys, undone, and nothing is saved before the list was looked at", async ({ page }) => {
  await page.goto("/manage/map?site=c07");
  const bearing = page.locator("#map-bearing"), grip = page.locator("[data-site=c07]").first(), look = page.getByRole("button", { name: "Look at what moved" });
  await expect(look).toBeDisabled();
  const was = await bearing.inputValue();
  await expect(async () => {
    await bearing.fill("200");
    await expect(look).toBeEnabled({ timeout: 500 });
  }).toPass();
  await grip.focus();
  await page.keyboard.press(".");
  await expect(bearing).toHaveValue("201°");
  await expect(page.locator("[data-said]")).toHaveText(/^Site C-07: .*heading 201°$/);
  await look.click();
  await expect(page.getByRole("region", { name: "What moved" })).toContainText(/C-07: turned \d+(\.\d)?° (counter)?clockwise/);
  await expect(page.getByRole("button", { name: "Save 1 site" })).toBeVisible();
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await expect(bearing).toHaveValue(was);
  await expect(look).toBeDisabled();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
});

test("the map is one stop of the Tab key; from there keys travel, take hold, move and let go", async ({ page }) => {
  await page.goto("/manage/map");
  const bar = page.getByRole("button", { name: "Whole park" }), site = (id: string) => page.locator(`[role=button][data-site=${id}]`), look = page.getByRole("button", { name: "Look at what moved" });
  await expect(page.locator("[role=application] [tabindex='0']")).toHaveCount(1);
  await expect(async () => {
    await bar.focus();
    await page.keyboard.press("Tab");
    await expect(site("a01")).toBeFocused({ timeout: 500 });
    await page.keyboard.press("End");
    await expect(site("e12")).toBeFocused({ timeout: 500 });
  }).toPass();
  await page.keyboard.press("Home");
  await expect(site("a01")).toBeFocused();
  await page.keyboard.press("c");
  await expect(site("c01")).toBeFocused();
  await page.keyboard.press("C");
  await expect(site("c02")).toBeFocused();
  // The arrow keys go on over the map and come back, and move nothing.
  const id = () => page.evaluate(() => document.activeElement?.getAttribute("data-site"));
  await page.keyboard.press("ArrowUp");
  await expect.poll(id).not.toBe("c02");
  await page.keyboard.press("d");
  await expect(site("d01")).toBeFocused();
  await expect(look).toBeDisabled();
  await expect(page.locator("[role=application] [tabindex='0']")).toHaveCount(1);

  // Taken hold of with Space, arrow keys move it and it keeps the focus; Escape lets go.
  await page.keyboard.press("Space");
  await expect(site("d01")).toHaveAttribute("aria-pressed", "true");
  await expect(site("d01")).toBeFocused();
  const label = await site("d01").getAttribute("aria-label");
  await page.keyboard.press("ArrowRight");
  await expect(site("d01")).not.toHaveAttribute("aria-label", label!);
  await expect(site("d01")).toBeFocused();
  await expect(look).toBeEnabled();
  await page.keyboard.press("Control+z");
  await expect(site("d01")).toHaveAttribute("aria-label", label!);
  await page.keyboard.press("Escape");
  await expect(site("d01")).toHaveAttribute("aria-pressed", "false");
  await page.keyboard.press("ArrowRight");
  await expect.poll(id).not.toBe("d01");
  await expect(look).toBeDisabled();

  // Enter leads to the numbers; one Tab back is the map again, at the same site.
  await page.keyboard.press("d");
  const there = (await id())!;
  await page.keyboard.press("Enter");
  await expect(page.locator("#map-east")).toBeFocused();
  await expect(page.locator("#map-site")).toHaveValue(there);
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
});

test("two fingers zoom the map, one moves it or the chosen site, and a tap near a small site takes hold of it", async ({ page }, { project }) => {
  test.skip(project.name !== "phone", "a desktop here has no glass to touch");
  await page.goto("/manage/map?site=c07");
  const site = (id: string) => page.locator(`[role=button][data-site=${id}] polygon`), apart = async () => far(await middleOf(site("c01")), await middleOf(site("c05"))), look = page.getByRole("button", { name: "Look at what moved" });
  await page.locator("[role=application]").scrollIntoViewIfNeeded();
  const fingers = await Fingers.on(page), frame = (await page.locator("[role=application]").boundingBox())!, at = (dx: number, dy: number) => [frame.x + frame.width / 2 + dx, frame.y + frame.height / 2 + dy] as const;
  const before = await apart();
  await expect(async () => {
    await page.getByRole("button", { name: "Whole park" }).click();
    await fingers.draw([at(-30, 0), at(-60, 0)], [at(30, 0), at(60, 0)]);
    expect((await apart()) / before).toBeCloseTo(2, 1);
  }).toPass();
  await expect(look).toBeDisabled();
  await page.getByRole("button", { name: "To the chosen site" }).click();
  const lies = await middleOf(site("c07"));
  await fingers.draw([at(120, 100), at(90, 70)]);
  await expect.poll(async () => far(await middleOf(site("c07")), [lies[0] - 30, lies[1] - 30])).toBeLessThan(5);
  await expect(look).toBeDisabled();
  expect((await page.locator("[data-turn] circle").first().boundingBox())!.width).toBeGreaterThan(43.9);
  const chosen = await middleOf(site("c07"));
  await fingers.draw([chosen, [chosen[0] + 40, chosen[1]]]);
  await expect(look).toBeEnabled();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "Whole park" }).click();
  const small = await middleOf(site("e05"));
  await page.touchscreen.tap(small[0] + 1, small[1] + 1);
  await expect(page.locator("#map-site")).toHaveValue("e05");
});

test("of two people on the map nobody's move is put back by the other's, and who was overtaken chooses", async ({ page, context }, { project }) => {
  // Three sites for each screen: both runs change the one park. A degree or two of turning, so that the map stays what other tests find.
  const [mine, both, theirs] = project.name === "phone" ? ["d01", "d02", "d03"] as const : ["d04", "d05", "d06"] as const;
  const other = await context.newPage(), bearing = (at: typeof page) => at.locator("#map-bearing"), look = (at: typeof page) => at.getByRole("button", { name: "Look at what moved" });
  const bearingOf = async (at: typeof page, id: string) => {
    await at.locator("#map-site").selectOption(id);
    return Number.parseFloat(await bearing(at).inputValue());
  };
  const open = async (at: typeof page) => {
    await at.goto("/manage/map");
    await expect(async () => {
      await at.locator("#map-site").selectOption(both);
      await expect(bearing(at)).toBeVisible({ timeout: 500 });
    }).toPass();
  };
  const turn = async (at: typeof page, id: string, by: number) => {
    const to = ((await bearingOf(at, id)) + by) % 360;
    await bearing(at).fill(String(to));
    return to;
  };
  const save = async (at: typeof page, sites: string) => {
    await look(at).click();
    await at.getByRole("button", { name: `Save ${sites}` }).click();
  };
  await open(page);
  await open(other);
  const [my, overtaken] = [await turn(page, mine, 1), await turn(page, both, 2)];
  const [kept, their] = [await turn(other, both, 3), await turn(other, theirs, 4)];
  await save(other, "2 sites");
  await expect(other.getByText("Saved: 2 sites.")).toBeVisible();
  await save(page, "2 sites");
  await expect(page.getByText(/Somebody else has saved .* meanwhile, so nothing was saved/)).toBeVisible();

  page.on("dialog", (dialog) => void dialog.accept());
  await page.reload();
  const offer = page.getByRole("region", { name: "Unsaved changes from before" });
  await expect(offer.getByRole("group")).toHaveCount(1);
  await expect(offer.getByRole("heading")).toBeInViewport();
  await expect(offer.getByRole("radio", { name: new RegExp(`^Leave it where they put it: .* heading ${kept}°$`) })).toBeChecked();
  await expect(offer.getByRole("radio", { name: new RegExp(`^Move it to where I had it: .* heading ${overtaken}°$`) })).not.toBeChecked();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await offer.getByRole("button", { name: "Take them up again" }).click();
  await expect(page.getByText("1 site moved. Not saved.")).toBeVisible();
  expect([await bearingOf(page, mine), await bearingOf(page, both), await bearingOf(page, theirs)]).toEqual([my, kept, their]);
  await save(page, "1 site");
  await expect(page.getByText("Saved: 1 site.")).toBeVisible();
  await page.reload();
  await expect(look(page)).toBeDisabled();
  await expect(offer).toHaveCount(0);
});
