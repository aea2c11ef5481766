// events per person-time

export { type ClusteredEvents, type ClusteredRate, clusteredRate } from "./clustered-rate.js";
export { type EventCount, type EventRate, eventRate } from "./event-rate.js";

// two groups

export { type RateRatio, rateRatio, type TwoEventCounts } from "./rate-ratio.js";
