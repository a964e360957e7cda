export * from "./schema";
export * from "./survey-schema";
export * from "./ground";
export * from "./terrain";
export * from "./clearance";
