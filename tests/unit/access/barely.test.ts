import { describe, expect, it } from "vitest";
import { findAccess } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { faultsOfAccess } from "../../checker/access-check";
import { demo } from "../card/demo";

function onDemo(siteId: string, rigId: string) {
  const { site, rig, result } = demo(siteId, rigId), scene = { site, rig, poses: [result.pose!] };
  return { scene, access: findAccess(site, rig, scene.poses, defaultPolicy)! };
}

describe("a way with little room", () => {
  it.each([
    ["with the wheels brought back slowly, where the first look finds none", "e07", "demo-tt-16"],
    ["from beginnings between the first", "b12", "demo-class-c-31"],
    ["along a ridge, changing two numbers at a time", "d09", "demo-fw-28"],
    ["where the best by its looks does not hold", "b11", "demo-class-a-35"],
  ])("is found %s", (_, siteId, rigId) => {
    const { scene, access } = onDemo(siteId, rigId);
    expect(access.state).toBe("found");
    expect(faultsOfAccess(scene, access, defaultPolicy)).toEqual([]);
  });

  it("is found where the wheels would turn too far between two looks, and they do not", () => {
    const { scene, access } = onDemo("b07", "demo-class-a-35");
    expect(access.state).toBe("found");
    // The other reading takes a corner of the far road, in the seam to the mouth, for the ground's edge: of its faults only those of the line are asked here.
    expect(faultsOfAccess(scene, access, defaultPolicy).filter((fault) => fault.includes("wheels turned"))).toEqual([]);
  }, 60_000);
});
