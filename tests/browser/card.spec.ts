import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";
import { openStays } from "./open-stays";

test("a guest opens the arrival card from the private page, on the phone and as a PDF", async ({ page, request }, info) => {
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

test.describe("without signal", () => {
  /** What a page is told by its browser, and what its server in development asks for over and over. */
  const noNetwork = /ERR_INTERNET_DISCONNECTED|ERR_FAILED|WebSocket|Failed to fetch/;

  test("a card that was opened is there again, says when it was kept, and is forgotten with its stay", async ({ page, request, context, watch }, info) => {
    watch.allow(noNetwork);
    watch.allow(/status of 404/);
    test.slow();
    const [stay] = await openStays(request, info, 29, [{ site: "c07", name: "Juniper Quince" }]);
    await page.goto(`/stay/${stay!.token}/card`);
    await expect(page.getByText("Kept on this phone: you can open it without signal.")).toBeVisible({ timeout: 60_000 });
    await context.setOffline(true);
    await page.reload();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Arrival card: site C-07");
    await expect(page.getByText(/^No signal: this is the page as it was kept on [A-Z][a-z]{2} \d+, \d{4}, \d+:\d\d [AP]M\.$/)).toBeVisible();
    await expect(page.getByText(/Walk all the way around/)).toBeVisible();
    await expect(page.getByRole("img", { name: "Scan to open this card on a phone" })).toBeVisible();
    expect(await page.evaluate(() => getComputedStyle(document.querySelector("article h1")!).fontFamily)).not.toBe("");
    expect(await page.evaluate(() => [...document.styleSheets].some(({ cssRules }) => cssRules.length > 20))).toBe(true);

    await context.setOffline(false);
    await stay!.cancel();
    expect((await page.goto(`/stay/${stay!.token}/card`))!.status()).toBe(404);
    expect(await keptOf(page)).toEqual([]);
  });

  test("no other page is kept, and of cards the last ten", async ({ page, watch }) => {
    watch.allow(noNetwork);
    test.slow();
    const card = (length: number) => `/sites/c07/card?kind=travel-trailer&units=ft-in&length=${length}ft`;
    await page.goto("/sites/c07?kind=travel-trailer&units=ft-in");
    await page.goto(card(16));
    await expect(page.getByText("Kept on this phone: you can open it without signal.")).toBeVisible({ timeout: 60_000 });
    // Ten more, as the page itself asks for it.
    const asked = await page.evaluate(async () => {
      const worker = (await navigator.serviceWorker.getRegistration("/sites/"))!.active!;
      const keep = (address: string) => new Promise<boolean>((done) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = ({ data }) => done((data as { kept: boolean }).kept);
        worker.postMessage({ keep: address, parts: [] }, [port2]);
      });
      const answers = [];
      for (let i = 0; i < 10; i++) answers.push(await keep(`/sites/c07/card?kind=travel-trailer&units=metric&again=${i}`));
      return { answers, refused: [await keep("/sites/c07?kind=travel-trailer"), await keep("/desk"), await keep("/api/parks")] };
    });
    expect(asked).toEqual({ answers: Array(10).fill(true), refused: [false, false, false] });
    const kept = await keptOf(page);
    expect(kept).toHaveLength(10);
    expect(kept.filter((name) => !name.startsWith("kept-page card /sites/c07/card?"))).toEqual([]);
    expect(kept.some((name) => name.includes("length=16ft"))).toBe(false);
    const stored = await page.evaluate(async () => (await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => new URL(url).pathname)))).flat());
    expect(stored.filter((path) => !path.startsWith("/_next/static/") && path !== "/sites/c07/card" && !/^\/(icon\.svg|favicon\.ico)$/.test(path))).toEqual([]);
  });

  test("says where it cannot be kept", async ({ page }) => {
    await page.addInitScript(() => Object.defineProperty(Navigator.prototype, "serviceWorker", { get: () => ({ register: () => Promise.reject(new Error("not over an open connection")) }) }));
    await page.goto("/sites/c04/card?kind=travel-trailer&units=ft-in");
    await expect(page.getByText("Not kept on this phone. Leave this page open or save the PDF.")).toBeVisible();
  });
});

/** The names under which pages are kept in this browser. */
function keptOf(page: Page): Promise<string[]> {
  return page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith("kept-page")));
}
