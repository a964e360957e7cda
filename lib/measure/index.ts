export * from "./units";
export * from "./fields";
export * from "./parse";
