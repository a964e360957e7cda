import { readFileSync } from "node:fs";
import type { APIRequestContext, Page, TestInfo } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, sessionFile, test } from "./fixtures";
import { demoRig, nightsOf } from "./open-stays";

test.use({ as: "manager" });

/** Nobody else's name, phone and plate: of this test, project and run alone. */
function makeGuest(info: TestInfo) {
  const mark = `${info.project.name}${Date.now() % 1_000_000}`;
  return { name: `Orla Winterbourne ${mark}`, email: `orla.${mark}@example.test`, phone: `555 ${String(Date.now()).slice(-7)}`, plate: `OW ${String(Date.now()).slice(-5)}` };
}

type Person = ReturnType<typeof makeGuest>;

/** A stay as the guest makes it over the interface. On a site it is canceled at once: then it is over. For any site, it is to come. */
async function makeStay(request: APIRequestContext, info: TestInfo, slot: number, guest: Partial<Person>, site: string | null = "b05"): Promise<{ id: string; reference: string; token: string; drop: () => Promise<void> }> {
  const answer = await request.post("/api/stays", { data: { park: "quillback-meadow", ...nightsOf(info, slot), site, rig: demoRig(), guest, note: `${guest.name} comes late` } });
  expect(answer.status(), await answer.text()).toBe(201);
  const { stay, link } = (await answer.json()) as { stay: { id: string; reference: string }; link: { token: string } };
  const drop = async () => expect((await request.patch(`/api/stays/${stay.id}`, { data: { state: "cancelled" }, headers: { Authorization: `Bearer ${link.token}` } })).status()).toBe(200);
  if (site !== null) await drop();
  return { ...stay, token: link.token, drop };
}

async function findGuest(page: Page, text: string, name: string): Promise<void> {
  await page.goto("/manage/guests");
  await page.getByLabel("Name, e-mail, phone, plate or reference").fill(text);
  await page.getByRole("button", { name: "Find" }).click();
  await page.getByRole("link", { name, exact: true }).click();
  await expect(page.getByRole("heading", { level: 1, name })).toBeVisible();
}

test("a manager finds a guest, hands out what is kept, erases a stay that is over, and its page then names nobody", async ({ page, request, watch }, info) => {
  // A long way through many pages.
  test.slow();
  const guest = makeGuest(info);
  const over = await makeStay(request, info, 20, guest);
  const coming = await makeStay(request, info, 21, guest, null);
  await page.goto(`/desk/stays/${over.id}`);
  await page.getByLabel("Note", { exact: true }).fill(`Called ${guest.phone}`);
  await page.getByRole("button", { name: "Write it down" }).click();
  await expect(page.getByText(`Called ${guest.phone}`)).toBeVisible({ timeout: 30_000 });

  await findGuest(page, guest.phone, guest.name);
  await expect(page.getByRole("checkbox")).toHaveCount(2);
  await expect(page.getByText("not over yet, so it cannot be erased")).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);

  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Download as a file" }).click()]);
  const file = JSON.parse(readFileSync((await download.path())!, "utf8")) as { about: string; stays: { reference: string; guestName: string; guestPhone: string; plate: string; note: string; notes: { text: string }[]; quotes: unknown[]; audit: { subject: string }[] }[] };
  expect(download.suggestedFilename()).toMatch(/^guest-[A-Z0-9]{6}\.json$/);
  expect(file.about).toContain("Times are UTC");
  expect(file.stays.map(({ reference }) => reference).sort()).toEqual([over.reference, coming.reference].sort());
  const kept = file.stays.find(({ reference }) => reference === over.reference)!;
  expect(kept).toMatchObject({ guestName: guest.name, guestPhone: guest.phone, plate: guest.plate, note: `${guest.name} comes late`, notes: [{ text: `Called ${guest.phone}` }] });
  expect(kept.quotes).toHaveLength(1);
  expect(new Set(kept.audit.map(({ subject }) => subject))).toEqual(new Set(["stay", "stay_quote", "stay_link", "stay_note"]));

  await page.getByRole("button", { name: "Erase …" }).click();
  await expect(page.getByRole("heading", { level: 1, name: `Erase ${guest.name}?` })).toBeVisible();
  await expect(page.getByRole("heading", { name: "From 1 stay" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "Not over yet: left as they are" })).toBeVisible();
  await expectAccessible(page);
  await expectNoSideways(page);
  const field = page.getByLabel(/^To go on, type the name or the reference/);
  await field.fill("somebody else");
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText(`Type exactly ${guest.name} or ${over.reference}.`)).toBeVisible();
  await expect(field).toHaveValue("somebody else");
  await expectAccessible(page);
  await field.fill(over.reference.toLowerCase());
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText("Erased: 1 stay. Nothing there says who it was any more.")).toBeVisible();
  await expectAccessible(page);

  await page.goto(`/desk/stays/${over.id}`);
  await expect(page.getByRole("heading", { level: 1, name: "A guest whose data was erased" })).toBeVisible();
  await expect(page.getByText(/changed .*name/)).toBeVisible();
  const html = (await page.content()).toLowerCase();
  for (const trace of Object.values(guest)) expect(html).not.toContain(trace.toLowerCase());
  await expect(page.getByRole("button", { name: "Put back to booked" })).toHaveCount(0);
  await expectAccessible(page);
  // The guest's own link leads nowhere now.
  watch.allow(/404/);
  expect((await request.get(`/stay/${over.token}`)).status()).toBe(404);
  await page.goto(`/manage/guests?q=${encodeURIComponent(guest.name)}`);
  await expect(page.getByText("1 guest, 1 record.")).toBeVisible();
  await coming.drop();
});

test("who only shares a phone is not ticked, and where nothing is ticked nothing happens", async ({ page, request }, info) => {
  const guest = makeGuest(info);
  const own = await makeStay(request, info, 22, guest);
  const akin = await makeStay(request, info, 23, { name: `Pim ${guest.name}`, phone: guest.phone });
  await findGuest(page, own.reference, guest.name);
  await expect(page.getByText("same phone")).toBeVisible();
  await expect(page.getByRole("checkbox", { name: new RegExp(`Pim ${guest.name}`) })).not.toBeChecked();
  await page.getByRole("group", { name: "Theirs", exact: true }).getByRole("checkbox").uncheck();
  await page.getByRole("button", { name: "Download as a file" }).click();
  await expect(page.getByText("Tick at least one first.")).toBeVisible();
  await page.getByRole("group", { name: "Theirs", exact: true }).getByRole("checkbox").uncheck();
  await page.getByRole("button", { name: "Erase …" }).click();
  await expect(page.getByText("Nothing that is over is ticked, so there is nothing to erase.")).toBeVisible();
  await expect(page.getByRole("button", { name: "Erase for good" })).toHaveCount(0);
  await expectAccessible(page);
  await page.goto(`/desk/stays/${akin.id}`);
  await expect(page.getByRole("heading", { level: 1, name: `Pim ${guest.name}` })).toBeVisible();
});

test("without script a guest is erased all the same", async ({ browser, request, baseURL }, info) => {
  const guest = makeGuest(info);
  const over = await makeStay(request, info, 24, guest);
  const page = await (await browser.newContext({ baseURL: baseURL!, javaScriptEnabled: false, storageState: sessionFile("manager", baseURL!) })).newPage();
  await findGuest(page, guest.email, guest.name);
  await page.getByRole("button", { name: "Erase …" }).click();
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText(`Type exactly ${guest.name} or ${over.reference}.`)).toBeVisible();
  await page.getByLabel(/^To go on, type the name or the reference/).fill(guest.name);
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText("Erased: 1 stay. Nothing there says who it was any more.")).toBeVisible();
  await page.context().close();
});

test("nothing is kept of somebody nobody knows, and an address that leads to nobody is 404", async ({ page, watch }) => {
  watch.allow(/404/);
  await page.goto("/manage/guests?q=nobody-of-that-name");
  await expect(page.getByText("Nothing is kept for “nobody-of-that-name”.")).toBeVisible();
  await expectAccessible(page);
  for (const id of ["x", "00000000-0000-4000-8000-000000000000"]) expect((await page.goto(`/manage/guests/${id}`))!.status()).toBe(404);
});

test.describe("for the desk", () => {
  test.use({ as: "desk" });

  test("guests' data as a whole is not theirs: a page says so, and the file is 403", async ({ page, request }, info) => {
    const guest = makeGuest(info);
    const over = await makeStay(request, info, 25, guest);
    for (const path of ["/manage/guests", `/manage/guests?q=${guest.phone}`, `/manage/guests/${over.id}`, `/manage/guests/${over.id}/erase?stay=${over.id}`]) {
      await page.goto(path);
      await expect(page.getByRole("heading", { level: 1, name: "For managers" })).toBeVisible();
      expect(await page.content()).not.toContain(guest.name);
    }
    const answer = await page.request.get(`/manage/guests/${over.id}/export?stay=${over.id}`);
    expect(answer.status()).toBe(403);
    expect(await answer.text()).toBe("");
    await page.goto("/manage/park");
    await expect(page.getByRole("link", { name: "Guests’ data" })).toHaveCount(0);
  });
});

test.describe("signed out", () => {
  test.use({ as: null });

  test("there is neither page nor file", async ({ request }) => {
    expect((await request.get("/manage/guests?q=a", { maxRedirects: 0 })).status()).toBe(307);
    expect((await request.get("/manage/guests/00000000-0000-4000-8000-000000000000/export")).status()).toBe(401);
  });
});
