export * from "./types";
export * from "./policy";
export { facing, place, placeBox } from "./frames";
export { fitSite, headingsFor, rankSites, type FitOptions, type Unknowns } from "./fit-site";
export { layOut, type Layout } from "./layout";
export { orderResults, scoreOf, type ScoreInput } from "./score";
export { DRAIN_FALL } from "./needs";
export { IN_LINE_GAP } from "./vehicle";
