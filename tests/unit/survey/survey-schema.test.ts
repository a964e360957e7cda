import { describe, expect, it } from "vitest";
import { openApi } from "@/app/api/describe";
import { contentKey } from "@/lib/jobs/content-key";
import { parseFitRequest } from "@/lib/fit/request";
import { siteSchema, surveyTarget } from "@/lib/park";
import { rig } from "../wording/scene";

const pad = { outline: [[0, -1800], [9000, -1800], [9000, 1800], [0, 1800]] };
const bare = { id: "a", entry: "back-in", pad, ground: { along: 0, across: 0 } };
const survey = (...measurements: unknown[]) => siteSchema.safeParse({ ...bare, survey: { measurements } });
const paths = (result: ReturnType<typeof survey>) => result.error?.issues.map((i) => i.path.join(".")) ?? [];
const oak = { id: "m1", of: "obstacles.oak.at", how: "tape", error: 20, on: "2026-05-04" };

describe("the survey in a site's record", () => {
  it("may be left out, null, or empty, and keeps what was read", () => {
    expect(siteSchema.parse(bare).survey).toBeUndefined();
    expect(siteSchema.parse({ ...bare, survey: null }).survey).toBeUndefined();
    expect(siteSchema.parse({ ...bare, survey: {} }).survey).toEqual({ measurements: [] });
    const readings = { tapes: [{ from: "pad.0", distance: 4000 }, { from: [0, 1800], distance: 5000, add: 280, error: 10 }], side: "right" };
    expect(survey({ ...oak, by: "MK", again: "2027-05-04", readings }).data?.survey?.measurements[0]).toEqual({ ...oak, by: "MK", again: "2027-05-04", readings });
  });

  it("is answered with every fault at once, each with its field", () => {
    const result = survey(
      { ...oak, of: "obstacles.oak.colour", how: "guess", error: -1, on: "2026-02-30", by: "" },
      { ...oak, again: "2026-05-03", readings: { tapes: [{ from: "the corner", distance: 0 }], girth: 900 } },
      { id: "m2", of: "ground", how: "inclinometer", error: 0.2, on: "2026-05-04", readings: { degrees: { along: 91 } } },
      oak,
    );
    expect(paths(result)).toEqual(expect.arrayContaining([
      "survey.measurements.0.of", "survey.measurements.0.how", "survey.measurements.0.error", "survey.measurements.0.on", "survey.measurements.0.by", "survey.measurements.1.again",
      "survey.measurements.1.readings.tapes.0.from", "survey.measurements.1.readings.tapes.0.distance", "survey.measurements.1.readings.girth",
      "survey.measurements.2.readings.degrees.along", "survey.measurements.3.id",
    ]));
  });

  it("names things in lists by their ids, whatever is in an id", () => {
    expect(surveyTarget("pad")).toEqual({ list: "", id: null, field: "pad" });
    expect(surveyTarget("obstacles.oak.2.crownFrom")).toEqual({ list: "obstacles", id: "oak.2", field: "crownFrom" });
    expect(surveyTarget("approach.heightLimits.gate.height")).toEqual({ list: "approach.heightLimits", id: "gate", field: "height" });
    expect([surveyTarget("obstacles.at"), surveyTarget("hookups..at"), surveyTarget("hookups.ped.volts"), surveyTarget("constructor")]).toEqual([null, null, null, null]);
  });

  it("is part of what answers are kept by", () => {
    const [one, other] = [survey(oak), survey({ ...oak, error: 40 })];
    expect(contentKey(one.data!)).not.toBe(contentKey(other.data!));
  });

  it("comes in over the interface, and is described there", () => {
    const parsed = parseFitRequest({ sites: [{ ...bare, survey: { measurements: [oak] } }], rig });
    expect(parsed.ok && parsed.request.sites?.[0]?.survey?.measurements).toEqual([oak]);
    expect(JSON.stringify(openApi())).toContain("spot-heights");
  });
});
