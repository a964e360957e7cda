export * from "./units";
export * from "./fields";
