import type { Finding } from "../tally.js";
import type { Drawn } from "./draw-study.js";
import { effectOf, testFinding } from "./read-off.js";

/** Replicates in which the grades are tested: dealing them out anew thousands of times takes longer than all else. */
const gradesTested = 200;

/** Every p-value that a report prints, where nothing differs. */
export function testFindings(drawn: Drawn): readonly Finding[] {
  const compared = drawn.tests("compared");
  const p = (method: string) => compared.find((test) => test.method === method)?.p;
  const effect = (measure: Parameters<typeof effectOf>[1]["measure"], adjusted: boolean) =>
    effectOf(drawn, { measure, adjusted, ...(measure === "landmark_difference" ? { day: 91 } : {}) })?.p;
  return [
    testFinding("log-rank, groups", p("log_rank")),
    testFinding("log-rank, groups within grades", p("log_rank_stratified")),
    ...(drawn.replicate < gradesTested ? gradeFindings(drawn) : []),
    testFinding("proportional hazards", p("proportionality")),
    testFinding("hazard ratio, crude", effect("hazard_ratio", false)),
    testFinding("hazard ratio, grade as strata", effect("hazard_ratio", true)),
    testFinding("difference of shares at week 13, crude", effect("landmark_difference", false)),
    testFinding("difference of shares at week 13, over grades", effect("landmark_difference", true)),
    testFinding("difference of mean days, crude", effect("restricted_mean_difference", false)),
    testFinding("difference of mean days, over grades", effect("restricted_mean_difference", true)),
  ];
}

function gradeFindings(drawn: Drawn): readonly Finding[] {
  const [overall, trend] = drawn.tests("grade");
  return [testFinding("log-rank, grades", overall?.p), testFinding("log-rank trend over grades", trend?.p)];
}
