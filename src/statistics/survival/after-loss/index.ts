// shares if those lost to follow-up were unlike those followed

export {
  type DifferenceAfterLoss,
  type DifferenceAfterLossOptions,
  type DifferenceAtFactor,
  type DifferenceSupposed,
  differenceAfterLoss,
  type LossInGroups,
} from "./difference-after-loss.js";
export type { LossEvents } from "./loss-columns.js";
export {
  type ShareAfterLoss,
  type ShareAfterLossOptions,
  type ShareAtFactor,
  type ShareSupposed,
  shareAfterLoss,
} from "./share-after-loss.js";
export { type Tipping, widestFactor } from "./tipping.js";
