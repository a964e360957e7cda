import { describe, expect, it } from "vitest";
import { nextAddress } from "@/app/components/rig-form/next-address";
import { paramsOf, type Params } from "@/app/components/rig-form/params";
import { hrefOfField } from "@/app/components/rig-form/step-links";
import { formAt, formOf } from "./address";

/** Where a press of a button leads, taken apart. */
function press(params: Params): { path: string; query: Params; search: string; hash: string } {
  const url = new URL(nextAddress(params, formOf(params, "ft-in")), "http://park.test");
  return { path: url.pathname, query: paramsOf(url.searchParams), search: url.search.slice(1), hash: url.hash };
}

const trailer = { kind: "travel-trailer", length: "31 ft" } as const;

describe("a press of a button", () => {
  it("leads to the sites with the shortest address of the rig", () => {
    expect(press({ ...trailer, step: "size", hitch: "", width: "", height: "", want: ["none", "power", "water"], go: "sites" })).toMatchObject({ path: "/sites", search: "kind=travel-trailer&length=31+ft&units=ft-in" });
  });

  it("leads to the step it names, with everything typed", () => {
    const { path, query } = press({ ...trailer, step: "size", height: "11' 2\"", go: "hookups" });
    expect(path).toBe("/rig");
    expect(query).toMatchObject({ step: "hookups", height: "11' 2\"", length: "31 ft" });
  });

  it("stays where something cannot be read, and goes back to it before the sites are looked for", () => {
    expect(press({ ...trailer, step: "size", height: "tall", go: "opens" }).query).toMatchObject({ step: "size", height: "tall" });
    expect(press({ ...trailer, step: "party", height: "tall", go: "opens" }).query).toMatchObject({ step: "opens" });
    expect(press({ ...trailer, step: "party", height: "tall", go: "sites" })).toMatchObject({ path: "/rig", query: { step: "size" } });
    expect(press({ ...trailer, step: "party", adults: "many", go: "sites" }).query).toMatchObject({ step: "party", adults: "many" });
  });

  it("takes a length class over whatever was typed, and another typical rig with it", () => {
    const { query } = press({ kind: "travel-trailer", length: "25 ft", step: "size", class: "37 ft" });
    expect(query).toMatchObject({ length: "37 ft", step: "size" });
    expect(formAt(new URLSearchParams({ kind: "travel-trailer", length: "37 ft" }).toString(), "ft-in").rig!.parts.map((p) => p.id)).toContain("rear-slide");
  });

  it("puts a part where the wall was tapped, and takes it off with its numbers", () => {
    const { query, hash } = press({ ...trailer, step: "opens", add: "right", addKind: "slide", addAt: "20" });
    expect(query).toMatchObject({ part: "door-side-slide@20", step: "opens", open: "door-side-slide" });
    expect(hash).toBe("#part-door-side-slide");
    const { rig } = formOf({ ...trailer, part: "door-side-slide@20" }, "ft-in");
    const { span, side } = rig!.parts.find((p) => p.id === "door-side-slide")!;
    expect(side).toBe("right");
    expect((span[0] + span[1]) / 2).toBeCloseTo(rig!.body.length * 0.2, 0);

    const gone = press({ ...trailer, step: "opens", part: "door-side-slide@20", "part-door-side-slide.depth": "3 ft", "part-door-side-slide": "nice", drop: "door-side-slide" });
    expect(gone.search).toBe("kind=travel-trailer&length=31+ft&units=ft-in&step=opens");
  });

  it("puts a part where there is most room when no place was tapped, and a second one beside the first", () => {
    const first = press({ ...trailer, step: "opens", add: "left", addKind: "slide" }).query.part as string;
    const { rig } = formOf({ ...trailer, part: first }, "ft-in");
    const [own, put] = ["slide", "driver-side-slide"].map((id) => rig!.parts.find((p) => p.id === id)!.span);
    expect(own![0] >= put![1] || put![0] >= own![1]).toBe(true);
    expect(press({ ...trailer, step: "opens", part: first, add: "left", addKind: "slide" }).query.part).toEqual([first, expect.stringMatching(/^driver-side-slide-2@\d+$/)]);
  });

  it("leaves in what the kind usually has and this one lacks", () => {
    const { search } = press({ ...trailer, step: "opens", "part-slide.depth": "3 ft", drop: "slide" });
    expect(formAt(search, "ft-in").rig!.parts.map((p) => p.id)).toEqual(["door", "awning"]);
  });

  it("passes over parts and walls that are made up", () => {
    expect(press({ ...trailer, step: "opens", add: "roof", addKind: "slide" }).search).not.toContain("part=");
    expect(formOf({ ...trailer, part: ["driver-side-pool@50", "slide@50", "driver-side-slide@1e3", "body@20"] }, "ft-in").rig!.parts.map((p) => p.id)).toEqual(["slide", "door", "awning"]);
    expect(press({ ...trailer, step: "opens", drop: "nothing" }).search).toContain("kind=travel-trailer");
  });
});

describe("the address of a field", () => {
  it("is its step, unfolded where it is folded away", () => {
    const form = formOf(trailer, "ft-in");
    expect(hrefOfField(form, "height")).toBe("/rig?kind=travel-trailer&length=31+ft&units=ft-in&step=size#field-height");
    expect(hrefOfField(form, "part-slide.depth")).toBe("/rig?kind=travel-trailer&length=31+ft&units=ft-in&step=opens&open=slide#field-part-slide.depth");
    expect(hrefOfField(form, "inlet-sewer.at")).toContain("step=hookups&open=sewer#field-inlet-sewer.at");
    expect(hrefOfField(form, "adults")).toContain("step=party#field-adults");
  });
});

describe("hookups", () => {
  it("of a side that was never told are where the kind usually has them, and move to another wall with their height", () => {
    const usual = formOf(trailer, "ft-in").rig!.inlets.find((i) => i.kind === "sewer")!;
    const moved = formOf({ ...trailer, "inlet-sewer.side": "right" }, "ft-in").rig!.inlets.find((i) => i.kind === "sewer")!;
    expect(moved).toMatchObject({ side: "right", u: usual.u, height: usual.height });
    const rear = formOf({ ...trailer, "inlet-sewer.side": "rear", "inlet-sewer.at": "2 ft" }, "ft-in").rig!;
    expect(rear.inlets.find((i) => i.kind === "sewer")!.v).toBeCloseTo(rear.body.width / 2 - 609.6, 6);
  });

  it("that the rig lacks cannot be asked for", () => {
    expect(formOf({ ...trailer, want: ["none", "power", "sewer"], "inlet-sewer.side": "none" }, "ft-in").rig!.wants).toEqual(["power"]);
    expect(formOf({ ...trailer, want: ["none", "power"], plug: "none" }, "ft-in").rig!).toMatchObject({ wants: [], electric: undefined });
    expect(formOf({ kind: "van", want: ["none", "sewer"], "inlet-sewer.side": "left" }, "ft-in").rig!.wants).toEqual(["sewer"]);
  });

  it("carry what runs and what is owned", () => {
    const { rig, query } = formOf({ ...trailer, "load-microwave": "must", "load-water-heater": "off", adapter: ["none", "30-to-20"], regulator: ["0", "1"], plug: "50" }, "ft-in");
    expect(rig!.electric).toEqual({ plug: 50, loads: [{ id: "battery-charger", va: 500, need: "must" }, { id: "air-conditioner", va: 1620, need: "nice" }, { id: "microwave", va: 1500, need: "must" }] });
    expect(rig!.gear).toMatchObject({ adapters: ["30-to-20"], regulator: true });
    expect(formAt(query, "metric").rig).toEqual(rig);
  });
});

describe("numbers that are possible but rare", () => {
  it("are asked about beside their field and count all the same", () => {
    const form = formOf({ ...trailer, height: "5 ft 10 in", length: "52 ft" }, "ft-in");
    expect(form.rig!.body.height).toBeCloseTo(1778, 6);
    expect(form.notes.height).toBe("Under 6 ft nobody stands up in it. Is this from the ground up?");
    expect(form.notes.length).toMatch(/^Rare for this kind/);
    expect(formOf({ ...trailer, height: "10 ft" }, "ft-in").notes).toEqual({});
  });

  it("past the end of the wall, or upside down, are refused beside their field", () => {
    const { faults, rig } = formOf({ ...trailer, "part-slide.start": "40 ft", "part-awning.from": "11 ft", "inlet-power.at": "35 ft", hitch: "31 ft" }, "ft-in");
    expect(rig).toBeNull();
    expect(faults["part-slide.start"]).toMatch(/^That is past the end of the wall/);
    expect(faults["part-awning.from"]).toBe("The top has to be above the underside.");
    expect(faults["inlet-power.at"]).toMatch(/^That is past the end of the wall/);
    expect(faults.hitch).toBe("The hitch cannot be as long as the whole rig.");
  });
});
