export * from "./answer";
export * from "./catalogue";
export * from "./format";
export * from "./lengths";
export * from "./plan-words";
export * from "./sentences";
export * from "./things";
export * from "./place-words";
