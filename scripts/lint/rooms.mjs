/**
 * The rooms of lib/ and what each may import. The one list from which ESLint's purity rules and the import order
 * checked by dependency-cruiser are both made.
 */

/** Pure rooms in their order: each may import the ones before it, never one after it. */
export const pureRooms = [
  "measure",
  "plane",
  "search",
  "park",
  "survey",
  "rig",
  "turning",
  "access",
  "fit",
  "stays",
  "assign",
  "insight",
  "exchange",
  "wording",
];

/** What the outer rooms may import beside the pure rooms and themselves. `store` makes no sentences. */
export const outerRooms = {
  card: ["wording"],
  store: [],
  jobs: ["card", "store", "wording"],
  cli: ["card", "store", "jobs", "wording"],
};

/** Packages that are as pure as the rooms that use them. */
export const purePackages = ["zod", "earcut", "robust-predicates", "csv-parse/sync", "csv-stringify/sync"];

/** The rooms of lib/ that `room` may import, itself included. */
export function permittedRooms(room) {
  const rank = pureRooms.indexOf(room);
  if (rank >= 0) return pureRooms.slice(0, rank + 1);
  const beside = outerRooms[room];
  if (!beside) throw new Error(`no such room: ${room}`);
  return [...pureRooms.filter((name) => name !== "wording"), ...beside, room];
}
