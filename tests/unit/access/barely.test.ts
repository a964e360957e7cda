import { describe, expect, it } from "vitest";
import { findAccess } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { faultsOfAccess } from "../../checker/access-check";
import { mirroredScene } from "../../scenes/way-scenes";
import { demo } from "../card/demo";

function onDemo(siteId: string, rigId: string) {
  const { site, rig, result } = demo(siteId, rigId);
  return { site: { ...site, survey: undefined }, rig, poses: [result.pose!] };
}

describe("a way with little room", () => {
  it.each([
    ["with the wheels brought back slowly, where the first look finds none", "e07", "demo-tt-16"],
    ["from beginnings between the first", "b12", "demo-class-c-31"],
    ["along a ridge, changing two numbers at a time", "d09", "demo-fw-28"],
    ["where the best by its looks does not hold", "b11", "demo-class-a-35"],
    ["where the wheels would turn too far between two looks, and they do not", "b07", "demo-class-a-35"],
    ["as askew on its pose as is let pass, to a hair that only the exact drive knows of", "b07", "demo-tt-33"],
  ])("is found %s", (_, siteId, rigId) => {
    const scene = onDemo(siteId, rigId), access = findAccess(scene.site, scene.rig, scene.poses, defaultPolicy)!;
    expect(access.state).toBe("found");
    expect(faultsOfAccess(scene, access, defaultPolicy)).toEqual([]);
  });

  it.each([
    ["where a try that was left early would be gone on from", "a15", "demo-class-c-31"],
    ["where both ways off a pull-through have room to spare", "b01", "demo-truck-camper-23"],
  ])("is the mirrored one in the mirror %s", (_, siteId, rigId) => {
    const scene = onDemo(siteId, rigId), [here, there] = [scene, mirroredScene(scene)].map(({ site, rig, poses }) => findAccess(site, rig, poses, defaultPolicy)!.way!);
    expect(Math.abs(there!.room - here!.room)).toBeLessThan(1);
    expect(there!.from).not.toBe(here!.from);
  });
});
