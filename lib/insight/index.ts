export * from "./types";
export * from "./cell";
export * from "./hindrances";
export * from "./tally";
export * from "./longest";
export * from "./changes";
export * from "./typical-columns";
export * from "./questions";
