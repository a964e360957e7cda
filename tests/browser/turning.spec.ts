import { expect, test } from "./fixtures";

const FOOT = 304.8;
/** A car and a camper trailer at their smallest turn: AASHTO Green Book 2011, P/T, inside radius 18.3 ft (from memory). */
const body = {
  vehicle: { width: 7 * FOOT, wheelbase: 11 * FOOT, frontOverhang: 3 * FOOT, rearOverhang: 5 * FOOT, units: [{ hitchBehindAxle: 5 * FOOT, hitchToAxle: 17.7 * FOOT, width: 8 * FOOT, rearOverhang: 12 * FOOT }] },
  arc: { radius: 30 * FOOT, degrees: 180 },
};

interface Refusal {
  readonly error: string;
  readonly faults: readonly { readonly path: string; readonly message: string }[];
}

test.describe("POST /api/turning", () => {
  test("answers the published inside radius, the same each time", async ({ request }) => {
    const answer = await request.post("/api/turning", { data: body });
    expect(answer.status()).toBe(200);
    const turn = (await answer.json()) as { insideRadius: number; outsideRadius: number; maxOfftracking: number; jackknifes: boolean };
    expect(Math.abs(turn.insideRadius / FOOT - 18.3)).toBeLessThanOrEqual(0.05);
    expect(turn.insideRadius + 4 * FOOT + turn.maxOfftracking).toBeCloseTo(30 * FOOT, 1);
    expect(turn.outsideRadius).toBeGreaterThan(33.5 * FOOT);
    expect(turn.jackknifes).toBe(false);
    expect(await (await request.post("/api/turning", { data: body })).json()).toEqual(turn);
  });

  test("takes a hitch's own limit", async ({ request }) => {
    const jackknifes = async (maxHitchAngle: number) => ((await (await request.post("/api/turning", { data: { ...body, maxHitchAngle } })).json()) as { jackknifes: boolean }).jackknifes;
    expect(await jackknifes(30)).toBe(true);
    expect(await jackknifes(80)).toBe(false);
  });

  test("answers 400 to what cannot be read, 413 to far too much, 405 to another method", async ({ request }) => {
    const headers = { "content-type": "application/json" };
    expect((await request.post("/api/turning", { headers, data: Buffer.from("{ not json") })).status()).toBe(400);
    const large = await request.post("/api/turning", { headers, data: Buffer.alloc(100_001, 32) });
    expect(large.status()).toBe(413);
    expect(((await large.json()) as Refusal).error).toBe("The body is larger than 100 kB.");
    expect((await request.get("/api/turning")).status()).toBe(405);
  });

  test("answers 422 with every fault at once, each with its path", async ({ request }) => {
    const answer = await request.post("/api/turning", { data: { vehicle: { ...body.vehicle, width: "wide", units: [{}] }, arc: { radius: 2000, degrees: 0 } } });
    expect(answer.status()).toBe(422);
    const { faults } = (await answer.json()) as Refusal, paths = faults.map((f) => f.path);
    for (const path of ["vehicle.width", "vehicle.units.0.hitchBehindAxle", "vehicle.units.0.hitchToAxle", "vehicle.units.0.width", "vehicle.units.0.rearOverhang", "arc.degrees", "arc.radius"]) expect(paths).toContain(path);
    expect(faults.find((f) => f.path === "arc.radius")!.message).toContain("more than the wheelbase");
  });

  test("is described for people, with what its numbers mean", async ({ page }) => {
    await page.goto("/docs/api");
    await expect(page.getByRole("heading", { name: "POST /api/turning" })).toBeVisible();
    await expect(page.getByRole("region", { name: "Shapes: TurningRequest" }).getByRole("rowheader", { name: "vehicle.units[].hitchToAxle" })).toBeVisible();
    await expect(page.getByRole("region", { name: "Shapes: TurningAnswer" })).toContainText("beside the arc");
  });
});
