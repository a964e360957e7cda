export * from "./maximise";
