// Every effect of a comparison: crude, standardised, ratio of rates, change of distance.
export { effectsOf } from "./effects-of.js";
