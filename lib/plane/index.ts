export * from "./points";
export * from "./polygon";
