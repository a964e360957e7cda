import { describe, expect, it } from "vitest";
import { z } from "zod";
import { readJson } from "@/app/api/answers";
import { openApi } from "@/app/api/describe";
import { resultSchemas } from "@/app/api/result-schema";
import { stayRecordSchema } from "@/app/api/stays/record";
import { stayCallSchema, stayPatchSchema } from "@/lib/stays";
import { defaultPolicy, rankSites } from "@/lib/fit";
import { MAX_SITES_PER_CALL, parseFitRequest } from "@/lib/fit/request";
import { answerOf } from "@/lib/wording";
import { demoRig, demoSites, rig, site } from "../wording/scene";

const faults = (value: unknown) => {
  const parsed = parseFitRequest(value);
  return parsed.ok ? [] : parsed.faults;
};

describe("parseFitRequest", () => {
  it("fills in a park's defaults and the units of the sentences", () => {
    const parsed = parseFitRequest({ sites: [site], rig, policy: { clearance: 200 } });
    expect(parsed.ok && [parsed.request.policy.clearance, parsed.request.policy.headroom, parsed.request.units]).toEqual([200, 75, "ft-in"]);
  });

  it("tells every fault at once, each with its path", () => {
    const bad = { sites: [{ ...site, entry: "sideways", pad: { outline: [[0, 0], [1, 1]] } }, { ...site, id: "" }], rig: { ...rig, kind: "boat", body: { ...rig.body, width: -1 } }, units: "cubits" };
    const paths = faults(bad).map((f) => f.path);
    for (const path of ["sites.0.entry", "sites.0.pad.outline", "sites.1.id", "rig.kind", "rig.body.width", "units"]) expect(paths).toContain(path);
  });

  it("wants sites or a park, not both and not neither", () => {
    expect(faults({ rig })).toEqual([{ path: "sites", message: "must be a list of sites, or give park" }]);
    expect(faults({ rig, sites: [site], park: "quillback-meadow" })).toEqual([{ path: "park", message: "give sites or park, not both" }]);
    expect(faults({ rig, park: "../etc" }).map((f) => f.path)).toEqual(["park"]);
  });

  it("wants every site to have its own id: results name sites by it", () => {
    expect(faults({ rig, sites: [site, site] })).toEqual([{ path: "sites.1.id", message: '"c07" is already the id of another site in this list' }]);
  });

  it("names its limit without reading a list far too long", () => {
    const sites = Array.from({ length: MAX_SITES_PER_CALL + 1 }, () => "not even a site");
    expect(faults({ rig, sites })).toEqual([{ path: "sites", message: "at most 2000 sites in one call, got 2001" }]);
  });

  it.each([null, 7, "text", [], undefined, true])("refuses %j as a whole", (value) => {
    expect(faults(value).length).toBeGreaterThan(0);
  });
});

describe("a body", () => {
  const post = (body: BodyInit, headers: Record<string, string> = {}) => new Request("http://localhost/", { method: "POST", body, headers, duplex: "half" } as RequestInit);
  const status = async (body: BodyInit, limit?: number, headers?: Record<string, string>) => {
    const read = await readJson(post(body, headers), limit);
    return read.ok ? 200 : read.answer.status;
  };

  it("is refused when unreadable (400) and when too large (413), told or not", async () => {
    expect(await status("{}")).toBe(200);
    expect(await status("{")).toBe(400);
    expect(await status("")).toBe(400);
    expect(await status(new Uint8Array([0x22, 0xff, 0x22]))).toBe(400);
    expect(await status("[1,2,3]", 4)).toBe(413);
    expect(await status("[]", 4, { "content-length": "5000" })).toBe(413);
    const endless = new ReadableStream<Uint8Array>({ pull: (c) => c.enqueue(new Uint8Array(1000).fill(32)) });
    expect(await status(endless, 10_000)).toBe(413);
  });
});

describe("the description", () => {
  it("is OpenAPI 3.1 whose references all lead somewhere", () => {
    const document = openApi();
    expect(document.openapi).toBe("3.1.0");
    const names = Object.keys(document.components.schemas);
    for (const [, name] of JSON.stringify(document).matchAll(/#\/components\/schemas\/(\w+)/g)) expect(names).toContain(name);
    expect(Object.keys(document.paths)).toEqual(["/api/fit", "/api/parks/{slug}/sites", "/api/parks/{slug}/availability", "/api/stays", "/api/stays/{id}", "/api/turning", "/api/openapi.json"]);
  });

  it("gives examples that its own schemas read", () => {
    const { post } = openApi().paths["/api/stays"], { patch } = openApi().paths["/api/stays/{id}"];
    const exampleOf = (operation: { requestBody?: Record<string, unknown> }) => (operation.requestBody as { content: { "application/json": { example: unknown } } }).content["application/json"].example;
    expect(stayCallSchema.safeParse(exampleOf(post)).error?.issues).toBeUndefined();
    expect(stayPatchSchema.safeParse(exampleOf(patch)).error?.issues).toBeUndefined();
  });

  it("names every field of a stay's call and answer, and no other", () => {
    const { StayCall, StayPatch, Stay } = openApi().components.schemas as Record<string, { properties: Record<string, unknown> }>;
    expect(Object.keys(StayCall!.properties).sort()).toEqual(["accepts", "arrive", "as", "depart", "guest", "note", "park", "rig", "site", "wanted"]);
    expect(Object.keys(StayPatch!.properties).sort()).toEqual(["accepts", "arrive", "depart", "guest", "note", "override", "reason", "rig", "site", "state", "version"]);
    expect(Object.keys(Stay!.properties).sort()).toEqual(Object.keys(stayRecordSchema.shape).sort());
  });

  it("describes answers as they are, without a field more or less", () => {
    const sites = demoSites.slice(0, 40);
    for (const id of ["demo-tt-31", "demo-van-20"]) {
      const answer = JSON.parse(JSON.stringify(answerOf(rankSites(sites, demoRig(id), defaultPolicy), sites, demoRig(id), "metric"))) as unknown;
      const parsed = resultSchemas.Answer.safeParse(answer);
      expect(parsed.error && z.prettifyError(parsed.error)).toBeUndefined();
      expect(parsed.data).toEqual(answer);
    }
  });
});
