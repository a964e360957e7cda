/** The smallest park in the open format that is right in every field. */
export function smallPark(slug = "two-pines") {
  const site = (id: string) => ({
    id,
    label: id.toUpperCase(),
    loop: "A",
    entry: "back-in",
    pad: { outline: [[0, -1800], [13700, -1800], [13700, 1800], [0, 1800]], surface: "gravel" },
    ground: { along: 1.5, across: -0.8 },
    obstacles: [{ id: "rock", kind: "rock", at: [9000, -3300], radius: 400, from: 0, to: 500 }],
    hookups: [],
    surveyorsRemark: "kept as it came",
  });
  const rig = {
    id: "short-van",
    kind: "van",
    body: { length: 5900, width: 2050, height: 2700, floor: 200 },
    supports: [
      { kind: "tyre", at: [1000, 800] }, { kind: "tyre", at: [1000, -800] },
      { kind: "tyre", at: [4600, 800] }, { kind: "tyre", at: [4600, -800] },
    ],
    parts: [],
    inlets: [],
    wants: [],
    party: { adults: 2, children: 0, pets: 0, tents: 0, accessible: false },
  };
  return {
    park: { slug, name: "Two Pines", units: "metric", policy: { clearance: 200 }, map: { extent: [[0, 0], [9000, 9000]] } },
    sites: { sites: [site("a02"), site("a01")] },
    rigs: { rigs: [{ name: "Short van", note: "no hookups", rig }] },
  };
}
