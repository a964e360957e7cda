import { afterAll, describe, expect, it } from "vitest";
import { decidingNumbers } from "@/lib/access";
import { defaultPolicy, fitSite } from "@/lib/fit";
import { closePool } from "@/lib/jobs/fit-pool";
import { findWayIn } from "@/lib/jobs/find-way-in";
import { wayAsks, wayIn } from "@/lib/jobs/way-in";
import { backInSite, trailer as wanting } from "../../scenes/way-scenes";

afterAll(closePool);

const trailer = { ...wanting, wants: [] }, site = backInSite({ width: 6500, mouth: 3000 }), pose = fitSite(site, trailer, defaultPolicy).pose!;
const asked = { site, rig: trailer, pose, policy: defaultPolicy };

describe("a way in, on a thread", () => {
  it("is what is found here, and is worked out once", async () => {
    const way = await wayIn(asked);
    expect(way).toEqual(findWayIn(asked));
    expect(await wayIn({ ...asked, site: structuredClone(site) })).toBe(way);
    expect(await wayIn({ ...asked, site: { ...site, approach: undefined } })).toBeNull();
  });

  it("comes with the numbers of what steers that it hangs on, and with none where nobody measured the approach", async () => {
    const asks = await wayAsks(asked);
    expect(asks).toEqual(decidingNumbers(site, trailer, [pose], defaultPolicy));
    // 78 mm of room with the usual truck: a longer one does not come in.
    expect(asks.map(({ field, below, above }) => [field, below, above])).toContainEqual(["rig.drive.wheelbase", "found", "not-found"]);
    // A hitch that bends further hinders nothing, whatever a search made of it.
    expect(asks.filter(({ field, above }) => field === "rig.drive.maxHitchAngle" && above !== "found")).toEqual([]);
    expect(await wayAsks(asked)).toBe(asks);
    expect(await wayAsks({ ...asked, site: { ...site, approach: undefined } })).toEqual([]);
  });
});
