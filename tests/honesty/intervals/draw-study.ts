import { deriveCohort } from "../../../src/cohort/derive.js";
import { linkTables } from "../../../src/cohort/link.js";
import { curveFamily } from "../../../src/study/curves.js";
import { effectsOf } from "../../../src/study/effects.js";
import type { ExactFamily } from "../../../src/study/exact-results.js";
import { byGrade, compared, everybody } from "../../../src/study/groups.js";
import { type EffectResult, type Plan, type PlanAsWritten, planSchema } from "../../../src/study/index.js";
import { pairsOf } from "../../../src/study/pairs.js";
import type { TestResult } from "../../../src/study/results.js";
import { specificationOf } from "../../../src/study/specification.js";
import { testsOfComparison, testsOfGrades } from "../../../src/study/tests-of-groups.js";
import { drawCohort, type Scenario } from "../../../src/synthetic/index.js";

/** A plan with its defaults, but for what is asked otherwise. */
export const planOf = (asked: Partial<PlanAsWritten> = {}): Plan =>
  planSchema.parse({
    study: "honesty",
    title: "SYNTHETIC",
    synthetic: true,
    data: { injuries: "drawn" },
    ...asked,
  });

/** The parts of a study's results that are read off here, each worked out when it is asked for, as a report works it out. */
export interface Drawn {
  /** Everybody, and the compared groups. */
  readonly curves: () => readonly ExactFamily[];
  readonly effects: () => readonly EffectResult[];
  readonly tests: (family: TestResult["family"]) => readonly TestResult[];
  /** Which replicate this is, from 0. */
  readonly replicate: number;
}

function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** One drawn cohort, answered as a report answers it. The stream is the replicate. */
export function drawnResults(
  scenario: Scenario,
  options: { readonly plan: Plan; readonly seed: number; readonly stream: number },
): Drawn {
  const { seed, stream } = options;
  const { closedOn, ...rows } = drawCohort(scenario, { seed, stream });
  const specification = {
    ...specificationOf({ ...options.plan, data: { ...options.plan.data, closed_on: closedOn } }),
    path: "days" as const,
  };
  const typed = <Row>(table: readonly Row[]) =>
    table.map((values, at) => ({ file: "drawn", row: at + 2, values }));
  const linked = linkTables({
    injuries: typed(rows.injuries),
    treatments: typed(rows.treatments),
    imaging: typed(rows.imaging),
    visits: typed(rows.visits),
    sites: typed(rows.sites),
    personIds: "per_site",
  });
  const { records } = deriveCohort(linked, specification.question);
  const { comparison } = specification;
  const groups = once(() => compared(records, specification));
  const pairs = once(() => pairsOf(groups(), specification));
  return {
    curves: once(() =>
      [everybody(records, specification), groups()].map((one) => curveFamily(one, specification)),
    ),
    effects: once(() => effectsOf(pairs(), specification)),
    tests: (family) =>
      family === "grade"
        ? testsOfGrades(byGrade(records, specification), specification)
        : testsOfComparison(groups(), { pairs: pairs(), comparison }),
    replicate: stream,
  };
}
