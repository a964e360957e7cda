import { describe, expect, it } from "vitest";
import { findAccess } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { faultsOfAccess } from "../../checker/access-check";
import { demo } from "../card/demo";

describe("a way with little room", () => {
  it.each([
    ["with the wheels brought back slowly, where the first look finds none", "e07", "demo-tt-16"],
    ["from beginnings between the first", "b12", "demo-class-c-31"],
    ["along a ridge, changing two numbers at a time", "d09", "demo-fw-28"],
    ["where the best by its looks does not hold", "b11", "demo-class-a-35"],
    ["where the wheels would turn too far between two looks, and they do not", "b07", "demo-class-a-35"],
  ])("is found %s", (_, siteId, rigId) => {
    const { site, rig, result } = demo(siteId, rigId), scene = { site, rig, poses: [result.pose!] }, access = findAccess(site, rig, scene.poses, defaultPolicy)!;
    expect(access.state).toBe("found");
    expect(faultsOfAccess(scene, access, defaultPolicy)).toEqual([]);
  });
});
