import { describe, expect, it } from "vitest";
import { siteSchema } from "@/lib/park";
import { mirrorSite } from "@/lib/park/edit/mirror";
import { mirrored } from "../scenes/transform";
import { answer, better, clearlyHolds, law, refuse, settled } from "./support";

describe("a site that is mirrored in the editor", () => {
  it("takes the mirrored rig as the site as it was took the rig as it is", () => {
    law(120, (scene) => {
      const before = answer(scene), after = answer({ ...scene, site: siteSchema.parse(mirrorSite(scene.site)), rig: mirrored(scene).rig });
      if (!settled(before) || !settled(after)) return;
      if ((better(before, after) && clearlyHolds(before)) || (better(after, before) && clearlyHolds(after))) refuse("mirrored in the editor", before, after);
    }, 31);
  });

  it("is the record that mirroring every point by hand gives", () => {
    law(200, (scene) => {
      const { site } = mirrored({ ...scene, site: { ...scene.site, roadEdge: scene.site.roadEdge ?? [[0, -3000], [0, 3000]] } });
      const plain = (value: unknown) => JSON.parse(JSON.stringify(value, (_, v: unknown) => (v === 0 ? 0 : v))) as unknown;
      expect(plain(siteSchema.parse(mirrorSite({ ...scene.site, roadEdge: scene.site.roadEdge ?? [[0, -3000], [0, 3000]] })))).toEqual(plain(site));
    }, 32);
  });
});
