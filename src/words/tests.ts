import type { TestResult } from "../study/results.js";

/** A test by name, and the question that it asks. */
interface TestWords {
  readonly name: string;
  readonly asks: string;
}

export const testWords: Readonly<Record<TestResult["method"], TestWords>> = {
  log_rank: { name: "Log-rank test", asks: "do the curves differ?" },
  log_rank_stratified: { name: "Log-rank test", asks: "do the curves differ within strata?" },
  log_rank_permuted: { name: "Log-rank test by permutation of the groups", asks: "do the curves differ?" },
  log_rank_trend: {
    name: "Log-rank test for trend",
    asks: "does the rate of return change steadily from group to group, in their order?",
  },
  proportionality: {
    name: "Test of proportional hazards",
    asks: "is the ratio of the rates of return constant over time?",
  },
};
