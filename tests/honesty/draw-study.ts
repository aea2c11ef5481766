import { answer, type Plan, type PlanAsWritten, planSchema, type Results } from "../../src/study/index.js";
import { drawCohort, type Scenario } from "../../src/synthetic/index.js";

/** A plan with its defaults, but for what is asked otherwise. */
export const planOf = (asked: Partial<PlanAsWritten> = {}): Plan =>
  planSchema.parse({
    study: "honesty",
    title: "SYNTHETIC",
    synthetic: true,
    data: { injuries: "drawn" },
    ...asked,
  });

/** One drawn cohort, answered as a report answers it. The stream is the replicate. */
export function drawnResults(
  scenario: Scenario,
  options: { readonly plan: Plan; readonly seed: number; readonly stream: number },
): Results {
  const { plan, seed, stream } = options;
  const { closedOn, ...rows } = drawCohort(scenario, { seed, stream });
  const typed = <Row>(table: readonly Row[]) =>
    table.map((values, at) => ({ file: "drawn", row: at + 2, values }));
  const tables = {
    injuries: typed(rows.injuries),
    treatments: typed(rows.treatments),
    imaging: typed(rows.imaging),
    visits: typed(rows.visits),
    sites: typed(rows.sites),
  };
  const closed = { ...plan, data: { ...plan.data, closed_on: closedOn } };
  return answer({ tables, accounts: [], queries: [] }, closed);
}
