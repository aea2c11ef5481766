// shares of those in each of several states over time

export { type StateAt, type StateQuestion, stateAt } from "./state-at.js";
export type { StateScale } from "./state-limits.js";
export {
  type StateCurve,
  type StateProbabilities,
  type StateProbabilityOptions,
  stateProbabilities,
} from "./state-probabilities.js";
export type { StateRows } from "./state-rows.js";

// mean times in them

export {
  type MeanTimeInState,
  type TimeInStates,
  type TimeInStatesOptions,
  timeInStates,
} from "./time-in-states.js";

// two groups

export {
  type StateContrast,
  type StateContrastOptions,
  stateContrast,
  type TwoStateProbabilities,
} from "./state-contrast.js";
