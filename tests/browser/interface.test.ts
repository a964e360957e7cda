import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "./fixtures";

const seed = path.join(import.meta.dirname, "../../seed/quillback-meadow");
const { sites } = JSON.parse(readFileSync(path.join(seed, "sites.json"), "utf8")) as { sites: { id: string }[] };
const { rigs } = JSON.parse(readFileSync(path.join(seed, "rigs.json"), "utf8")) as { rigs: { rig: { id: string } }[] };
const rig = rigs.find((r) => r.rig.id === "demo-tt-31")!.rig;

interface Result {
  readonly site: string;
  readonly verdict: string;
  readonly pose: unknown;
  readonly reasons: readonly { readonly text: string }[];
  readonly bring: readonly { readonly text: string }[];
}

test.describe("POST /api/fit", () => {
  test("ranks the sites sent along: every one, best first, with sentences", async ({ request }) => {
    const answer = await request.post("/api/fit", { data: { sites, rig } });
    expect(answer.status()).toBe(200);
    const { results } = (await answer.json()) as { results: Result[] };
    expect(results.map((r) => r.site).sort()).toEqual(sites.map((s) => s.id).sort());
    const order = ["fits", "gear", "ask", "unsettled", "no"];
    const ranks = results.map((r) => order.indexOf(r.verdict));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    for (const { verdict, pose, reasons, bring } of results) {
      expect(pose !== null).toBe(verdict === "fits" || verdict === "gear");
      if (verdict === "no") expect(reasons.length).toBeGreaterThan(0);
      for (const { text } of [...reasons, ...bring]) expect(text).toMatch(/\.$/);
    }
  });

  test("ranks a stored park by its short name, the same way, and speaks the units asked for", async ({ request }) => {
    const [sent, stored] = await Promise.all([request.post("/api/fit", { data: { sites, rig, units: "metric" } }), request.post("/api/fit", { data: { park: "quillback-meadow", rig, units: "metric" } })]);
    const answer = (await stored.json()) as { results: Result[] };
    expect(answer).toEqual(await sent.json());
    const texts = answer.results.flatMap((r) => r.reasons.map((x) => x.text)).join(" ");
    expect(texts).toMatch(/\d (cm|m)\b/);
    // What is missing is told in the other system as well, in brackets behind the one asked for.
    expect(texts.replace(/ \([^)]*\)/g, "")).not.toMatch(/\d (ft|in)\b/);
  });

  test("takes a park's settings from the call", async ({ request }) => {
    const fits = async (policy: object) => ((await (await request.post("/api/fit", { data: { sites, rig, policy } })).json()) as { results: Result[] }).results.filter((r) => r.verdict === "fits").length;
    expect(await fits({ clearance: 1500 })).toBeLessThan(await fits({}));
  });

  test("answers 400 to what cannot be read", async ({ request }) => {
    const answer = await request.post("/api/fit", { headers: { "content-type": "application/json" }, data: Buffer.from("{ not json") });
    expect(answer.status()).toBe(400);
    expect(((await answer.json()) as { error: string }).error).toMatch(/^The body cannot be read as JSON/);
  });

  test("answers 422 with every fault at once, each with its path", async ({ request }) => {
    const answer = await request.post("/api/fit", { data: { sites: [{ ...sites[0], entry: "sideways" }, { id: "x" }], rig: { ...rig, kind: "boat" } } });
    expect(answer.status()).toBe(422);
    const paths = ((await answer.json()) as { faults: { path: string; message: string }[] }).faults.map((f) => f.path);
    for (const expected of ["sites.0.entry", "sites.1.entry", "sites.1.pad", "rig.kind"]) expect(paths).toContain(expected);
  });

  test("answers 422 naming the limit to too many sites, 413 to a body too large, 404 to an unknown park", async ({ request }) => {
    const many = await request.post("/api/fit", { data: { sites: Array.from({ length: 2001 }, (_, i) => ({ id: `s${i}` })), rig } });
    expect(many.status()).toBe(422);
    expect(JSON.stringify(await many.json())).toContain("at most 2000 sites");
    const large = await request.post("/api/fit", { headers: { "content-type": "application/json" }, data: Buffer.alloc(10_500_000, 32) });
    expect(large.status()).toBe(413);
    const unknown = await request.post("/api/fit", { data: { park: "nowhere", rig } });
    expect(unknown.status()).toBe(404);
  });

  test("answers 405 to another method", async ({ request }) => {
    expect((await request.get("/api/fit")).status()).toBe(405);
  });
});

test("GET /api/parks/<slug>/sites gives the inventory, which /api/fit takes back as it is", async ({ request }) => {
  const inventory = (await (await request.get("/api/parks/quillback-meadow/sites")).json()) as { sites: { id: string }[] };
  expect(inventory.sites.map((s) => s.id)).toEqual(sites.map((s) => s.id));
  expect((await request.post("/api/fit", { data: { sites: inventory.sites, rig } })).status()).toBe(200);
  expect((await request.get("/api/parks/nowhere/sites")).status()).toBe(404);
});

test("the interface is described for machines and for people", async ({ request, page }) => {
  const document = (await (await request.get("/api/openapi.json")).json()) as { openapi: string; paths: object };
  expect(document.openapi).toBe("3.1.0");
  await page.goto("/docs/api");
  for (const path of Object.keys(document.paths)) await expect(page.getByRole("heading", { name: path }).first()).toBeVisible();
  await page.getByRole("link", { name: "FitRequest" }).first().click();
  await expect(page.getByRole("region", { name: "Shapes: FitRequest" })).toBeVisible();
});
