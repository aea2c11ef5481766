// two groups: sizes and power

export {
  type EventsForRatioOptions,
  eventFormulas,
  eventsForRatio,
  type PowerOfEventsOptions,
  powerOfEvents,
  type ShareSeenOptions,
  shareSeen,
} from "./hazards.js";
export {
  type SizeOfDifferenceOptions,
  type SizeOfMeansOptions,
  type SizeOfPairsOptions,
  sizeOfDifference,
  sizeOfMeans,
  sizeOfPairs,
} from "./means.js";
export type { GroupSizes } from "./planned.js";
export {
  type PowerOfSharesOptions,
  powerOfShares,
  type SizeOfSharesOptions,
  shareFormulas,
  sizeOfShares,
} from "./shares.js";

// width of an interval

export {
  type SizeForIntraclassOptions,
  type SizeForShareWidthOptions,
  sizeForIntraclass,
  sizeForShareWidth,
  type WidthOfShareOptions,
  widthOfShare,
} from "./precision.js";

// clusters and losses

export { type Recruits, type RecruitsOptions, recruits } from "./recruits.js";
