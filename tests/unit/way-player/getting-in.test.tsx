import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { GettingIn } from "@/app/components/way-player/getting-in";
import { policySchema } from "@/lib/fit";
import { findWayIn } from "@/lib/jobs/find-way-in";
import { siteSchema } from "@/lib/park";
import { demo, stand, type Stood } from "../card/demo";

const policy = policySchema.parse({});
const wayOf = ({ site, rig, result }: Stood) => findWayIn({ site, rig, pose: result.pose!, policy });
const shown = (stood: Stood, more = {}) => renderToStaticMarkup(<GettingIn site={stood.site} way={wayOf(stood)} units="ft-in" {...more} />);

/** D-03 on a straight road that may be driven either way. */
function eitherWay(): Stood {
  const { site, rig } = demo("d03", "demo-van-20");
  const approach = { road: { centreline: [[-3000, -40_000], [-3000, 40_000]], width: 6000, traffic: "both" }, driveable: [[[0, -5000], [3500, -2400], [3500, 2600], [0, 5000]]], heightLimits: [], gradeBreaks: [] };
  return stand(siteSchema.parse({ ...site, roadEdge: [[0, -3000], [0, 3000]], approach }), rig);
}

describe("getting in", () => {
  it("says that nobody measured it, and draws nothing", () => {
    expect(shown(demo("d04", "demo-tt-23"))).toMatch(/^<p class="[^"]*">Nobody has measured the way in\. Walk it before you drive it, with a helper\.<\/p>$/);
  });

  it("sends to staff where none was found, with the try that came nearest and what is missing there", () => {
    const page = shown(demo("c04", "demo-tt-31"));
    expect(page).toContain("No way in found; staff to check on the ground.");
    expect(page).toMatch(/The try that came nearest has .+ too little room between the tires and the edge of the firm ground\. It is drawn here\. Do not drive it\./);
    expect(page).toMatch(/aria-label="Plan of the try that came nearest on site C-04: not a way to drive/);
    expect(page).not.toContain("<button");
  });

  it("tells what bars every way, how high it hangs, and no gap that is not the point", () => {
    const page = shown(demo("a09", "demo-class-c-24"));
    expect(page).toContain("This rig cannot get to its place here.");
    expect(page.replaceAll("\u00a0", " ")).toContain("Too low for this rig: the limb, 11 ft 3 1/2 in up. There is no way around.");
    expect(page).not.toMatch(/too little room|short</);
  });

  it("offers both sides where there are two, as links where a page shows either", () => {
    const stood = eitherWay(), way = wayOf(stood)!;
    expect([way.way!.from, way.other!.from].sort()).toEqual(["left", "right"]);
    expect(shown(stood)).toMatch(/<button type="button" aria-pressed="true">Site on your (left|right)<\/button><button type="button" aria-pressed="false">Site on your (left|right)<\/button>/);
    const linked = shown(stood, { from: way.other!.from, hrefFrom: (from: string) => `/here?from=${from}` });
    expect(linked).toContain(`<a href="/here?from=${way.other!.from}" aria-current="true">Site on your ${way.other!.from}</a>`);
    expect(linked).toContain(`with the site on the driver’s ${way.other!.from}`);
  });

  it("is one still of the whole way before any script runs: all of the sweep, the rig at several moments, the rule, stills for every leg", () => {
    const page = shown(demo("b02", "demo-tt-31"));
    expect(page).toContain("If you cannot see your helper, stop.");
    for (const leg of ["1 Drive in", "2 Drive out"]) expect(page).toMatch(new RegExp(`<h4>${leg}</h4><ol>(<li>.+?</li>){4}</ol>`));
    expect(page.match(/id="way-b02-0-swept-\d"/g)).toEqual(['id="way-b02-0-swept-0"', 'id="way-b02-0-swept-1"']);
    for (const [, used] of page.matchAll(/href="#([^"]+)"/g)) expect(page).toContain(`id="${used}"`);
    expect(page).not.toContain("style=");
  });
});
