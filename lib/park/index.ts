export * from "./schema";
export * from "./survey-schema";
export * from "./ground";
export * from "./terrain";
export * from "./clearance";
export * from "./site-things";
export * from "./compare-sites";
export * from "./merge-sites";
