import AxeBuilder from "@axe-core/playwright";
import type { Locator, Page } from "@playwright/test";
import { expect, test } from "./fixtures";
import { far, Fingers, middleOf } from "./touch";

test.use({ as: "manager" });

const SITE = "c07";

/** The editor, once script runs on it. */
async function open(page: Page, site = SITE): Promise<void> {
  await page.goto(`/manage/sites/${site}/edit`);
  await expect(async () => {
    await page.locator("#entry-rules").click();
    await expect(page.locator("#entry-rules")).toHaveAttribute("aria-expanded", "true", { timeout: 500 });
  }).toPass();
}

function grip(page: Page, key: string): Locator {
  return page.locator(`[data-key="${key}"]`);
}

/** Drags the middle of a grip by so many pixels. */
async function drag(page: Page, key: string, dx: number, dy: number): Promise<void> {
  await grip(page, key).scrollIntoViewIfNeeded();
  const box = (await grip(page, key).locator("circle").first().boundingBox())!;
  const x = box.x + box.width / 2, y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx / 2, y + dy / 2);
  await page.mouse.move(x + dx, y + dy, { steps: 4 });
  await page.mouse.up();
}

test("dragging and typing change the same record, and are undone step by step", async ({ page }) => {
  await open(page);
  await page.locator("#entry-obstacles-2").click();
  const across = page.getByLabel("Place: In from the entry edge");
  const was = await across.inputValue();
  await drag(page, "obstacles.2.at", 0, 30);
  await expect(across).not.toHaveValue(was);
  const dragged = await across.inputValue();
  await across.fill("40 ft");
  await across.blur();
  await expect(across).toHaveValue("40 ft");
  await expect(grip(page, "obstacles.2.at")).toHaveAttribute("aria-label", /in 40 ft,/);
  await page.keyboard.press("Control+z");
  await expect(across).toHaveValue(dragged);
  await page.keyboard.press("Control+z");
  await expect(across).toHaveValue(was);
  await expect(page.getByRole("button", { name: "Undo" })).toBeDisabled();
  await page.keyboard.press("Control+Shift+Z");
  await expect(across).toHaveValue(dragged);
});

test("the keyboard alone moves a thing and its corners, adds one and takes it out", async ({ page }) => {
  await open(page);
  await grip(page, "pad").focus();
  await page.keyboard.press("Enter");
  const first = grip(page, "pad.outline.0");
  await expect(first).toBeFocused();
  const before = await first.getAttribute("aria-label");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Shift+ArrowLeft");
  await expect(first).not.toHaveAttribute("aria-label", before!);
  await expect(page.locator("[data-said]")).toHaveText(/^Pad: .*in|^Pad: .*entry edge/);
  await expect(page.locator("#entry-pad")).toContainText("6 corners");
  await page.keyboard.press("Insert");
  await expect(grip(page, "pad.outline.1")).toBeFocused();
  await expect(page.locator("#entry-pad")).toContainText("7 corners");
  await page.keyboard.press("Delete");
  await expect(page.locator("#entry-pad")).toContainText("6 corners");
  await page.keyboard.press("Escape");
  await expect(grip(page, "pad")).toBeFocused();
  for (let i = 0; i < 4; i++) await page.keyboard.press("Control+z");
  await expect(page.getByRole("button", { name: "Undo" })).toBeDisabled();
});

test("every fault stands beside its field and in the list, and keeps the record from being saved", async ({ page }) => {
  await open(page);
  await page.locator("#entry-obstacles-0").click();
  await page.getByLabel("Lowest limb").fill("60 ft");
  await page.getByLabel("Limbs reach out").fill("wide");
  await page.locator("#entry-rules").click();
  await page.getByLabel("Most guests").fill("2.5");
  const list = page.getByRole("region", { name: /to be put right/ });
  await expect(list.getByRole("button")).toHaveText([/limbs reach out.*cannot be read/i, /top: ends below/i, /most guests: must be a whole number/i]);
  await expect(page.getByText("Must be a whole number from 0 to 1,000.", { exact: true })).toBeVisible();
  await page.getByRole("button", { name: "Look at what changes" }).click();
  await expect(page.getByLabel("Limbs reach out")).toBeFocused();
  await expect(page.getByLabel("Limbs reach out")).toHaveAttribute("aria-invalid", "true");
  await expect(page.locator("#entry-obstacles-0")).toContainText("To put right");
  await page.getByLabel("Limbs reach out").fill("7 ft");
  await page.getByLabel("Lowest limb").fill("14 ft");
  await list.getByRole("button", { name: /most guests/i }).click();
  await expect(page.getByLabel("Most guests")).toBeFocused();
  await page.getByLabel("Most guests").fill("6");
  await expect(list).toHaveCount(0);
});

test("what was not saved is offered again after a reload, and leaving asks", async ({ page }) => {
  await open(page);
  await page.getByLabel("Most guests").fill("3");
  const asked = page.waitForEvent("dialog").then(async (dialog) => { await dialog.accept(); return dialog.type(); });
  await page.reload();
  expect(await asked).toBe("beforeunload");
  await page.getByRole("button", { name: "Take them up again" }).click();
  await page.locator("#entry-rules").click();
  await expect(page.getByLabel("Most guests")).toHaveValue("3");
  page.once("dialog", (dialog) => void dialog.dismiss());
  await page.getByRole("link", { name: "Site C-07", exact: true }).click();
  await expect(page).toHaveURL(/\/edit$/);
  await page.keyboard.press("Control+z");
  await page.getByRole("link", { name: "Site C-07", exact: true }).click();
  await expect(page).toHaveURL(new RegExp(`/manage/sites/${SITE}$`));
});

test("mirrored, a thing on the left stands on the right; what is changed is shown before it is saved", async ({ page }) => {
  await open(page);
  await expect(page.locator("#entry-obstacles-1")).toContainText("left 12 ft");
  await page.getByRole("button", { name: "Mirror left and right" }).click();
  await expect(page.locator("#entry-obstacles-1")).toContainText("right 12 ft");
  await page.getByRole("button", { name: "Mirror left and right" }).click();
  await expect(page.locator("#entry-obstacles-1")).toContainText("left 12 ft");
  await page.getByLabel("What to add").selectOption("rock");
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await expect(page.getByRole("button", { name: /^Rock/ }).first()).toBeVisible();
  await page.getByRole("button", { name: "Look at what changes" }).click();
  await expect(page).toHaveURL(/\/change\?draft=/);
  await expect(page.getByRole("main")).toContainText(/rock/i);
});

test("what is added to a surveyed site is noted as whoever adds it says that it is known", async ({ page }) => {
  await open(page, "e05");
  await page.getByLabel("What to add").selectOption("rock");
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.getByLabel("The new numbers are").selectOption("estimated by eye");
  await page.getByRole("button", { name: "Look at what changes" }).click();
  await expect(page).toHaveURL(/\/change\?draft=/);
  await expect(page.getByRole("row", { name: /How it was measured/ })).toContainText("3 added");
});

test("on a site that nobody surveyed a number is noted as known only where somebody says how", async ({ page }) => {
  const propose = async (say: boolean) => {
    await open(page, SITE);
    await page.getByLabel("What to add").selectOption("rock");
    await page.getByRole("button", { name: "Add", exact: true }).click();
    await expect(page.getByLabel("The new numbers are")).toHaveValue("unsaid");
    if (say) await page.getByLabel("The new numbers are").selectOption("estimated by eye");
    await page.getByRole("button", { name: "Look at what changes" }).click();
    await expect(page).toHaveURL(/\/change\?draft=/);
    await expect(page.getByRole("main")).toContainText(/rock/i);
  };
  await propose(true);
  await expect(page.getByRole("row", { name: /How it was measured/ })).toContainText("3 added");
  await propose(false);
  await expect(page.getByRole("row", { name: /How it was measured/ })).toHaveCount(0);
});

test("a copy is refused with what is wrong beside each field, then shown as a new site", async ({ page }, { project }) => {
  await page.goto(`/manage/sites/${SITE}/edit/copy`);
  await page.getByLabel("Identifier").fill("c 99");
  await page.getByRole("button", { name: "Look at the copy" }).click();
  await expect(page.getByText("Only letters, digits, and dashes, up to 40.")).toBeVisible();
  await expect(page.getByText("Say what the post will say.")).toBeVisible();
  await expect(page.getByLabel("Identifier")).toHaveValue("c 99");
  await page.getByLabel("Identifier").fill(`c99-${project.name}`);
  await page.getByLabel("What the post says").fill(`C-99 ${project.name}`);
  await page.getByLabel("Mirrored").check();
  await page.getByRole("button", { name: "Look at the copy" }).click();
  await expect(page).toHaveURL(new RegExp(`/manage/sites/c99-${project.name}/change\\?draft=`));
  await expect(page.getByRole("heading", { level: 1 })).toContainText(`C-99 ${project.name}`);
});

test("what one site has is given to others only after it was looked at", async ({ page }) => {
  await page.goto(`/manage/sites/${SITE}/edit/loop`);
  await page.getByRole("button", { name: "Look at what changes" }).click();
  await expect(page.getByText("Choose at least one thing to give.")).toBeVisible();
  await expect(page.getByText("Tick at least one site.").first()).toBeVisible();
  await page.getByLabel("Rules").check();
  await page.getByLabel("C-08").check();
  await page.getByRole("button", { name: "Look at what changes" }).click();
  await expect(page.getByRole("region", { name: "What would change" })).toContainText("Site C-08");
});

test("is in reach of everybody: axe finds nothing, and nothing is wider than the glass", async ({ page }) => {
  await open(page);
  await page.locator("#entry-obstacles-0").click();
  await page.getByLabel("Lowest limb").fill("60 ft");
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
});

test("two fingers zoom and move the plan, one finger the plan or what is chosen; the view stays through an edit", async ({ page }, { project }) => {
  test.skip(project.name !== "phone", "a desktop here has no glass to touch");
  await open(page);
  await page.locator("#entry-pad").click();
  await page.locator("[role=application]").scrollIntoViewIfNeeded();
  const fingers = await Fingers.on(page), frame = (await page.locator("[role=application]").boundingBox())!, at = (dx: number, dy: number) => [frame.x + frame.width / 2 + dx, frame.y + frame.height / 2 + dy] as const;
  const knob = (i: number) => middleOf(grip(page, `pad.outline.${i}`).locator("rect")), apart = async () => far(await knob(0), await knob(2));
  const [first, before] = [await knob(0), await apart()];
  await fingers.draw([at(-40, 0), at(-80, 20)], [at(40, 0), at(80, 20)]);
  await expect.poll(async () => (await apart()) / before).toBeCloseTo(2, 1);
  // What lay between the fingers lies there still: everything is twice as far from there.
  const nearer = await knob(0), from = at(0, 0), to = at(0, 20);
  expect(far(nearer, [to[0] + 2 * (first[0] - from[0]), to[1] + 2 * (first[1] - from[1])])).toBeLessThan(3);
  for (const one of await page.locator("[data-grip=point] circle, [data-grip=middle] circle:first-child").all()) expect((await one.boundingBox())!.width).toBeGreaterThan(43.9);

  // Two fingers that keep apart, and one on the ground, only move it; no number of the record is touched, and the page does not scroll.
  const scrolled = await page.evaluate(() => window.scrollY), lies = await knob(0);
  await fingers.draw([at(-30, 30), at(-10, 0)], [at(30, 30), at(50, 0)]);
  await fingers.draw([at(0, -20), at(15, 10)]);
  await expect.poll(async () => far(await knob(0), [lies[0] + 35, lies[1]])).toBeLessThan(6);
  expect(await page.evaluate(() => window.scrollY)).toBe(scrolled);
  await expect(page.getByRole("button", { name: "Undo" })).toBeDisabled();

  // An edit leaves what is shown as it is.
  await page.getByRole("button", { name: "Whole site" }).click();
  await page.getByRole("button", { name: "Zoom out" }).click();
  const [corner, other] = [await knob(2), await knob(0)];
  await fingers.draw([corner, [corner[0] + 30, corner[1] + 30]]);
  await expect(page.getByRole("button", { name: "Undo" })).toBeEnabled();
  await expect.poll(async () => far(await knob(2), [corner[0] + 30, corner[1] + 30])).toBeLessThan(12);
  expect(far(await knob(0), other)).toBeLessThan(1);

  // A second finger gives back what the first has moved, and what is left on the glass then drags nothing.
  await page.keyboard.press("Control+z");
  await expect(page.getByRole("button", { name: "Undo" })).toBeDisabled();
  const label = await grip(page, "pad.outline.2").getAttribute("aria-label"), held = await knob(2), drawn = [held[0] + 20, held[1] + 25] as const, second = [held[0] - 60, held[1] + 60] as const;
  await fingers.send("touchStart", [held]);
  await fingers.send("touchMove", [drawn]);
  await expect(grip(page, "pad.outline.2")).not.toHaveAttribute("aria-label", label!);
  await fingers.send("touchStart", [drawn, second]);
  await expect(grip(page, "pad.outline.2")).toHaveAttribute("aria-label", label!);
  await fingers.send("touchEnd", [drawn]);
  await fingers.send("touchMove", [[drawn[0] + 15, drawn[1] + 15]]);
  await fingers.send("touchEnd", []);
  await expect(grip(page, "pad.outline.2")).toHaveAttribute("aria-label", label!);
  await expect(page.getByRole("button", { name: "Undo" })).toBeDisabled();
});

test("plus, minus and 0 zoom the plan, and so does the wheel with Ctrl", async ({ page }, { project }) => {
  await open(page);
  await grip(page, "pad").focus();
  await page.keyboard.press("Enter");
  const apart = async () => far(await middleOf(grip(page, "pad.outline.0").locator("rect")), await middleOf(grip(page, "pad.outline.2").locator("rect")));
  await page.getByRole("button", { name: "Whole site" }).click();
  await grip(page, "pad.outline.0").focus();
  const whole = await apart();
  await page.keyboard.press("-");
  await expect.poll(apart).toBeLessThan(whole * 0.8);
  await page.keyboard.press("+");
  await expect.poll(async () => (await apart()) / whole).toBeCloseTo(1, 2);
  await page.keyboard.press("+");
  await expect.poll(apart).toBeGreaterThan(whole * 1.2);
  await page.keyboard.press("0");
  await expect.poll(async () => (await apart()) / whole).toBeCloseTo(1, 2);
  if (project.name === "phone") return;
  await page.locator("[role=application]").hover();
  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -200);
  await page.keyboard.up("Control");
  await expect.poll(apart).toBeGreaterThan(whole * 1.2);
});
