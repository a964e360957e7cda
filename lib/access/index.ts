export * from "./types";
export { findAccess } from "./find-access";
export { wayGroundOf, type Standing, type WayGround } from "./way-ground";
export { trainOf, type Train, type TrainBox } from "./train";
export { outlineOf } from "./judge";
export { placeSpotters, SAFE, type Post, type Spotting } from "./spotter";
export type { View } from "./sight";
