import type { Plan } from "../study/plan.js";
import type { CurveFamily } from "../study/results.js";

export interface ReturnCurveData {
  readonly family: CurveFamily;
  readonly plan: Plan;
  /** The grade of the cohort where all injuries have the same; its usual window is then drawn behind the curves. */
  readonly onlyGrade?: string;
}
