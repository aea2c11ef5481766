import type { Results } from "../../src/study/index.js";
import { effectOf, testFinding } from "./read-off.js";
import type { Finding } from "./tally.js";

/** Every p-value that a report prints, where nothing differs. */
export function testFindings(results: Results): readonly Finding[] {
  const p = (method: string, family: string) =>
    results.tests.find((test) => test.method === method && test.family === family)?.p;
  const effect = (measure: Parameters<typeof effectOf>[1]["measure"], adjusted: boolean) =>
    effectOf(results, { measure, adjusted, ...(measure === "landmark_difference" ? { day: 91 } : {}) })?.p;
  return [
    testFinding("log-rank, groups", p("log_rank", "compared")),
    testFinding("log-rank, groups within grades", p("log_rank_stratified", "compared")),
    testFinding("log-rank, grades", p("log_rank", "grade") ?? p("log_rank_permuted", "grade")),
    testFinding("log-rank trend over grades", p("log_rank_trend", "grade")),
    testFinding("proportional hazards", p("proportionality", "compared")),
    testFinding("hazard ratio, crude", effect("hazard_ratio", false)),
    testFinding("hazard ratio, grade as strata", effect("hazard_ratio", true)),
    testFinding("difference of shares at week 13, crude", effect("landmark_difference", false)),
    testFinding("difference of shares at week 13, over grades", effect("landmark_difference", true)),
    testFinding("difference of restricted means, crude", effect("restricted_mean_difference", false)),
    testFinding("difference of restricted means, over grades", effect("restricted_mean_difference", true)),
  ];
}
