export * from "./schema";
export * from "./solids";
