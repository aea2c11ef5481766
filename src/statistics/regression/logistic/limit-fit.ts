import { type Climb, climb } from "./newton.js";
import { type Objective, withinSpan } from "./objective.js";
import { type Margins, type Recession, recession } from "./recession.js";

/** A likelihood of choices, which may have its maximum at infinity. */
export interface ChoiceProblem {
  readonly objective: Objective;
  /** Asked for only when a fit runs away. */
  readonly margins: () => Margins;
  /** The likelihood of what is left when the vectors marked 1 have been pulled to infinity. */
  readonly without: (strict: Uint8Array) => Objective;
}

/** The maximum, or the limit that the likelihood rises to. */
export interface LimitFit {
  /** Over the coordinates of `span`, or over all where that is null. */
  readonly objective: Objective;
  readonly span: readonly Float64Array[] | null;
  readonly climb: Climb;
  readonly recession: Recession | null;
}

export interface LimitOptions {
  readonly maximumIterations: number;
  readonly tolerance: number;
}

/** A linear predictor this far from 0 (odds of 400,000 to 1) raises the question whether there is a maximum at all. */
const suspicious = 13;

/** Maximises; where the fit runs away, decides whether it has a maximum, and if not, maximises the limit. */
export function fitToLimit(problem: ChoiceProblem, options: LimitOptions): LimitFit {
  const { objective } = problem;
  const start = new Float64Array(objective.size);
  const first = climb(objective, {
    ...options,
    start,
    interrupt: ({ farthest }) => farthest > suspicious,
  });
  const whole = (reached: Climb): LimitFit => ({ objective, span: null, climb: reached, recession: null });
  if (first.outcome === "converged" && first.end.farthest <= suspicious) return whole(first);
  const found = recession(problem.margins());
  if (found === null) {
    if (first.outcome === "converged") return whole(first);
    const again = climb(objective, { ...options, start: first.point });
    return whole({ ...again, iterations: first.iterations + again.iterations });
  }
  const limit = withinSpan(problem.without(found.strict), found.determined);
  const reached = climb(limit, { ...options, start: new Float64Array(limit.size) });
  return {
    objective: limit,
    span: found.determined,
    climb: { ...reached, iterations: first.iterations + reached.iterations },
    recession: found,
  };
}
