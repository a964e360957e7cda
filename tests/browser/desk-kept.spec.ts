import { expectAccessible } from "./expectations";
import { expect, test } from "./fixtures";
import { demoRig, nightsOf, openStays } from "./open-stays";
import { addDays, asDate } from "@/lib/stays/dates";

test.use({ as: "desk" });

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("a booking that is refused keeps everything that was typed, and is made once it is put right", async ({ page }, info) => {
    test.slow();
    const { arrive } = nightsOf(info, 20);
    await page.goto(`/desk/new?call=van+19&arrive=${arrive}&depart=2`);
    await page.getByLabel("Phone").fill("555 010 0188");
    await page.getByLabel("Plate").fill("QM 31");
    await page.getByLabel("E-mail").fill("ora@");
    await page.getByLabel("Note", { exact: true }).fill("Two dogs, \"quiet\" corner");
    await page.getByLabel("Save it as").selectOption("requested");
    await page.getByRole("radio", { name: /^D-10 / }).check();
    await page.getByRole("button", { name: "Save the stay" }).click();
    const faults = page.getByRole("alert").filter({ hasText: "Name" });
    await expect(faults).toContainText("E-mail");
    await expect(page.getByLabel("Phone")).toHaveValue("555 010 0188");
    await expect(page.getByLabel("Plate")).toHaveValue("QM 31");
    await expect(page.getByLabel("E-mail")).toHaveValue("ora@");
    await expect(page.getByLabel("Note", { exact: true })).toHaveValue("Two dogs, \"quiet\" corner");
    await expect(page.getByLabel("Save it as")).toHaveValue("requested");
    await expect(page.getByRole("radio", { name: /^D-10 / })).toBeChecked();
    await expect(page.getByLabel("Kind and length")).toHaveValue("van 19");

    await page.getByLabel("Name").fill("Ora Sedge");
    await page.getByLabel("E-mail").fill("");
    await page.getByRole("button", { name: "Save the stay" }).click();
    await expect(page.getByRole("heading", { level: 1, name: "Ora Sedge" })).toBeVisible();
    await expect(page.getByRole("link", { name: "D-10" })).toBeVisible();
    await page.getByRole("button", { name: "Cancel", exact: true }).click();
    await expect(page.getByText("Canceled", { exact: true }).first()).toBeVisible();
  });

  test("each form of a stay keeps what was typed into it, and opens where it was folded away", async ({ page, request }, info) => {
    test.slow();
    const [stay] = await openStays(request, info, 21, [{ site: "d10", name: `Lune Carr ${info.project.name}` }]);
    const form = (name: string) => page.getByRole("form", { name, exact: true });
    await page.goto(`/desk/stays/${stay!.id}`);

    await form("Another rig at the gate").getByLabel("Kind and length").fill("a boat");
    await form("Another rig at the gate").getByLabel(/^Why/).fill("They swapped with a cousin");
    await form("Another rig at the gate").getByRole("button").click();
    await expect(form("Another rig at the gate").getByRole("alert")).toContainText("Type a kind and a length");
    await expect(form("Another rig at the gate").getByLabel("Kind and length")).toHaveValue("a boat");
    await expect(form("Another rig at the gate").getByLabel(/^Why/)).toHaveValue("They swapped with a cousin");

    await form("Guest").getByLabel("Name").fill("");
    await form("Guest").getByLabel("Plate").fill("QM 77");
    await form("Guest").getByRole("button").click();
    await expect(form("Guest").getByRole("alert")).toContainText("Name");
    await expect(form("Guest").getByLabel("Name")).toHaveValue("");
    await expect(form("Guest").getByLabel("Plate")).toHaveValue("QM 77");
    // What belongs to another form is as it is on record.
    await expect(form("Another rig at the gate").getByLabel("Kind and length")).toHaveValue("");

    const money = page.locator("details").filter({ hasText: "Note money that changed hands" });
    await money.locator("summary").click();
    await money.getByLabel(/^Amount/).fill("lots");
    await money.getByRole("combobox", { name: "For" }).selectOption("stay");
    await money.getByRole("button").click();
    await expect(money).toHaveAttribute("open", "");
    await expect(money.getByRole("alert")).toBeVisible();
    await expect(money.getByLabel(/^Amount/)).toHaveValue("lots");
    await expect(money.getByRole("combobox", { name: "For" })).toHaveValue("stay");

    const moving = form("Another site");
    await moving.getByText("Free, but a poor fit").click();
    await moving.getByRole("radio", { name: /E-08/ }).check();
    await moving.getByRole("button", { name: "Put them on" }).click();
    await expect(moving.getByRole("alert")).toContainText("Say why they are put there all the same.");
    await expect(moving.getByRole("radio", { name: /E-08/ })).toBeChecked();
    await expect(moving.getByRole("radio", { name: /E-08/ })).toBeVisible();

    const later = addDays(asDate(stay!.depart), 1);
    await page.getByLabel("Depart").fill(later);
    await page.getByRole("button", { name: "Change nights" }).click();
    await expect(page.getByText(/the added nights cost \$\d+\.\d\d\./)).toBeVisible();
    await expect(page.getByLabel("Depart")).toHaveValue(later);
    await page.getByRole("button", { name: "Change the nights at this price" }).click();
    await expect(page.getByText("(3 nights)")).toBeVisible();
    await expect(page.getByLabel("Depart")).toHaveValue(later);
    await stay!.cancel();
  });
});

test("among the sites that are free but do not fit, none is that somebody has", async ({ page, request }, info) => {
  test.slow();
  const { arrive, depart } = nightsOf(info, 22);
  // A van on a site that the trailer does not fit, on the very nights that the trailer is looked after.
  const answer = await request.post("/api/fit", { data: { park: "quillback-meadow", rig: demoRig() } });
  const { results } = (await answer.json()) as { results: { site: string; verdict: string }[] };
  const poor = results.filter(({ verdict }) => verdict === "no").map(({ site }) => site);
  const vanFits = ((await (await request.post("/api/fit", { data: { park: "quillback-meadow", rig: demoRig("demo-van-20") } })).json()) as { results: { site: string; verdict: string }[] }).results.filter(({ verdict }) => verdict === "fits").map(({ site }) => site);
  const taken = poor.find((site) => vanFits.includes(site))!;
  const [van, trailer] = await openStays(request, info, 22, [{ site: taken, name: "Ves Marl", rig: "demo-van-20" }, { site: "d10", name: "Tor Marl" }]);
  const label = taken.toUpperCase().replace(/^(.)/, "$1-");

  await page.goto(`/desk/stays/${trailer!.id}`);
  const moving = page.getByRole("form", { name: "Another site" });
  await moving.getByText("Free, but a poor fit").click();
  await expect(moving.locator("details").getByRole("radio").first()).toBeVisible();
  await expect(moving.getByRole("radio", { name: new RegExp(`^${label} `) })).toHaveCount(0);
  await expectAccessible(page);

  await page.goto(`/desk/new?call=tt+31&arrive=${arrive}&depart=${depart}`);
  await page.getByText("Free, but does not fit").click();
  await expect(page.locator("details").getByRole("radio").first()).toBeVisible();
  await expect(page.getByRole("radio", { name: new RegExp(`^${label} `) })).toHaveCount(0);
  await expectAccessible(page);

  await van!.cancel();
  await page.reload();
  await page.getByText("Free, but does not fit").click();
  await expect(page.getByRole("radio", { name: new RegExp(`^${label} `) })).toBeVisible();
  await trailer!.cancel();
});
