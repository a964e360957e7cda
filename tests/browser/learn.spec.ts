import type { Page } from "@playwright/test";
import { readabilityOf } from "../unit/learn/readability";
import { expectAccessible } from "./expectations";
import { expect, test } from "./fixtures";

const PAGES = ["/learn", "/learn/staff", "/learn/words"] as const;

async function widthsOf(page: Page) {
  return page.evaluate(() => ({ shown: document.documentElement.clientWidth, there: document.documentElement.scrollWidth }));
}

for (const path of PAGES) {
  test.describe(path, () => {
    test("is accessible, and never scrolls sideways on the narrowest phone", async ({ page }) => {
      for (const query of ["", "?units=metric"]) {
        await page.goto(path + query);
        await expectAccessible(page);
        for (const width of [360, 600, 800, 1100]) {
          await page.setViewportSize({ width, height: 740 });
          const { shown, there } = await widthsOf(page);
          expect(there, `${width} wide`).toBeLessThanOrEqual(shown);
        }
      }
    });

    test("has one first heading, and skips no level below it", async ({ page }) => {
      await page.goto(path);
      const levels = await page.locator("h1, h2, h3, h4").evaluateAll((all) => all.map((h) => Number(h.tagName.charAt(1))));
      expect(levels[0]).toBe(1);
      expect(levels.filter((level) => level === 1)).toHaveLength(1);
      levels.forEach((level, i) => expect(level - (levels[i - 1] ?? 0)).toBeLessThanOrEqual(1));
    });

    test("links only to what is there, anchors included", async ({ page, request }) => {
      await page.goto(path);
      const hrefs = await page.locator("a[href]").evaluateAll((all) => [...new Set(all.map((a) => (a as HTMLAnchorElement).href))]);
      const pages = new Map<string, string>();
      for (const href of hrefs) {
        const { origin, pathname, search, hash } = new URL(href);
        expect(origin).toBe(new URL(page.url()).origin);
        const address = pathname + search;
        if (!pages.has(address)) {
          const answer = await request.get(address);
          expect(answer.status(), address).toBe(200);
          pages.set(address, await answer.text());
        }
        if (hash) expect(pages.get(address), href).toContain(`id="${hash.slice(1)}"`);
      }
    });

    test("repeats no id", async ({ page }) => {
      await page.goto(path);
      const ids = await page.locator("[id]").evaluateAll((all) => all.map((e) => e.id));
      expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    });

    test("prints what is to be read and leaves out what is to be pressed", async ({ page }) => {
      await page.goto(path);
      await page.emulateMedia({ media: "print" });
      await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
      for (const nav of await page.locator("main nav").all()) await expect(nav).toBeHidden();
      const torn = await page.locator("main svg, main tr, main dl > div").evaluateAll((all) =>
        all.filter((e) => {
          for (let at: Element | null = e; at && at.tagName !== "MAIN"; at = at.parentElement) if (getComputedStyle(at).breakInside === "avoid") return false;
          return !e.matches("svg[aria-hidden]");
        }).length);
      expect(torn).toBe(0);
      await page.setViewportSize({ width: 720, height: 960 }); // what is left of a sheet of letter paper within its margins
      const { shown, there } = await widthsOf(page);
      expect(there).toBeLessThanOrEqual(shown);
    });
  });
}

test("the guest's page is reached from the first page, and all three from each other", async ({ page }) => {
  await page.goto("/");
  await page.getByRole("banner").getByRole("link", { name: "How it works" }).click();
  await expect(page).toHaveTitle(/^How it works/);
  const ways = page.getByRole("navigation", { name: "How it works" });
  await ways.getByRole("link", { name: "How a fit is decided" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("How a fit is decided");
  await ways.getByRole("link", { name: "Words of the trade" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Words of the trade");
  await ways.getByRole("link", { name: "How it works" }).click();
  await ways.getByRole("link", { name: "Check a rig" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("What do you travel in?");
});

test("a term leads to what it means, and the reader's units come along", async ({ page }) => {
  await page.goto("/learn?units=metric");
  await page.getByRole("main").getByRole("link", { name: "pedestal" }).first().click();
  await expect(page).toHaveURL(/\/learn\/words\?units=metric#pedestal$/);
  await expect(page.getByText("The post with the power sockets")).toBeInViewport();
  await page.getByRole("navigation", { name: "How it works" }).getByRole("link", { name: "How it works" }).click();
  await expect(page.getByText("30 cm stays free below limbs")).toBeVisible();
});

test("the terms stand in the order of the alphabet", async ({ page }) => {
  await page.goto("/learn/words");
  const terms = await page.locator("dfn").allTextContents();
  expect(terms.length).toBeGreaterThan(50);
  expect(terms).toEqual([...terms].sort((a, b) => a.localeCompare(b, "en-US")));
});

test("the guest's page as it is shown reads at grade 8 or lower", async ({ page }) => {
  await page.goto("/learn");
  const texts = await page.locator("main p, main li").allInnerTexts();
  const sentences = texts.map((text) => text.replace(/\s+/g, " ").trim()).filter((text) => /[.!?]$/.test(text));
  expect(sentences.length).toBeGreaterThan(80);
  expect(readabilityOf(sentences).grade).toBeLessThanOrEqual(8);
});

test("the plan is a real one, and every number on it is told", async ({ page }) => {
  await page.goto("/learn");
  const plan = page.getByRole("img", { name: /^Plan of site D-05: Fits$/ });
  const numbers = await plan.locator("[data-call-out] text").allTextContents();
  expect(numbers.length).toBeGreaterThan(10);
  const told = page.locator("ol", { has: page.getByText("Your rig: the thick outline.") });
  expect(await told.locator("li > b").allTextContents()).toEqual(numbers);
});

test("every setting that a constraint names is in the table, with its value in the reader's units", async ({ page }) => {
  await page.goto("/learn/staff");
  await page.getByRole("link", { name: "fireClearance" }).click();
  await expect(page).toHaveURL(/#setting-fireClearance$/);
  await expect(page.getByRole("row", { name: /^fireClearance/ })).toContainText(/9\sft\s10\sin/);
  await page.getByRole("navigation", { name: "Units" }).getByRole("link", { name: "Meters" }).click();
  await expect(page.getByRole("row", { name: /^fireClearance/ })).toContainText(/3\.00\sm/);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("all of it is there", async ({ page }) => {
    await page.goto("/learn");
    await page.getByRole("link", { name: "Where to hold the tape" }).click();
    await expect(page.getByRole("heading", { name: "Where to hold the tape" })).toBeInViewport();
    await expect(page.getByRole("img", { name: /^Length and hitch\./ })).toBeVisible();
    await page.getByRole("link", { name: "Meters" }).click();
    await expect(page.getByText("30 cm stays free below limbs")).toBeVisible();
  });
});
