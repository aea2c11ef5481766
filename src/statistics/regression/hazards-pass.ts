export type { Ties } from "./hazards/ties.js";
