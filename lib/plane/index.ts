export * from "./points";
export * from "./polygon";
export * from "./convex";
export * from "./envelope";
export * from "./around";
export * from "./nearest";
