import type { OutcomeRecord } from "../cohort/record.js";
import {
  describe,
  type Figure,
  standardisedDifference,
  standardisedDifferenceOfShares,
} from "../statistics/index.js";
import type { Group, Grouping } from "./groups.js";
import type { Plan } from "./plan.js";
import type { CohortCell, CohortRow, Results } from "./results.js";

/** Characteristics with terms, in the order of the table. */
const termVariables = [
  "first_treatment",
  "grade",
  "finger",
  "hand",
  "sex",
  "bowstringing",
  "onset",
  "site_id",
] as const;
/** Characteristics with numbers, and their units. */
const numberVariables = {
  age_at_injury: "a",
  years_climbing: "a",
  delay_days: "d",
  distance_loaded_first: "mm",
} as const;

/** Who is in the compared groups, and how unlike the groups are: one row a term or a number. */
export function cohortTable(comparison: Grouping, plan: Plan): Results["cohort"] {
  const { groups } = comparison;
  const overall = groups.flatMap(({ records }) => records);
  const { by, reference } = plan.compare;
  return {
    by,
    reference,
    groups: groups.map(({ label, records }) => ({ label, n: records.length })),
    overall: overall.length,
    rows: describedRows({ groups, overall, reference }, { omitted: by, withTreatment: false }),
  };
}

/**
 * Groups of injuries side by side: one row a term or a number, with the standardised difference of each group from the
 * reference on the first row of a variable.
 *
 * @param compared the groups, all their records, and the label of the reference
 * @param options omitted: a variable to leave out; withTreatment: whether the first treatment is one of the variables
 */
export function describedRows(
  compared: Compared,
  { omitted, withTreatment = true }: { readonly omitted: string | null; readonly withTreatment?: boolean },
): CohortRow[] {
  return [
    ...termVariables
      .filter((variable) => variable !== omitted && (withTreatment || variable !== "first_treatment"))
      .flatMap((variable) => termRows(variable, compared)),
    ...(Object.keys(numberVariables) as NumberVariable[]).flatMap((variable) =>
      numberRow(variable, compared),
    ),
  ];
}

type TermVariable = (typeof termVariables)[number];
type NumberVariable = keyof typeof numberVariables;
export interface Compared {
  readonly groups: readonly Group[];
  readonly overall: readonly OutcomeRecord[];
  readonly reference: string;
}

/** A row for each term that occurs; none where nobody has the variable recorded. */
function termRows(variable: TermVariable, { groups, overall, reference }: Compared): CohortRow[] {
  const whole = countTerms(overall, variable);
  const counted = groups.map(({ records }) => countTerms(records, variable));
  const terms = [...whole.counts.keys()].sort();
  const countsOf = ({ counts }: TermCounts) => terms.map((term) => counts.get(term) ?? 0);
  const base = countsOf(counted[groups.findIndex(({ label }) => label === reference)]!);
  return terms.map((term, at) => ({
    variable,
    term,
    unit: null,
    overall: termCell(whole, term),
    groups: counted.map((counts) => termCell(counts, term)),
    standardised_differences: groups.map(({ label }, group) =>
      at > 0 || label === reference
        ? null
        : numberOf(standardisedDifferenceOfShares(countsOf(counted[group]!), base)),
    ),
  }));
}

/** How often each term of a variable occurs, and how often none was recorded. */
interface TermCounts {
  readonly counts: ReadonlyMap<string, number>;
  readonly recorded: number;
  readonly missing: number;
}

function countTerms(records: readonly OutcomeRecord[], variable: TermVariable): TermCounts {
  const counts = new Map<string, number>();
  let missing = 0;
  for (const { covariates, firstTreatment } of records) {
    const term = variable === "first_treatment" ? firstTreatment : covariates[variable];
    if (term === null) missing++;
    else counts.set(term, (counts.get(term) ?? 0) + 1);
  }
  return { counts, recorded: records.length - missing, missing };
}

function termCell({ counts, recorded, missing }: TermCounts, term: string): CohortCell {
  const count = counts.get(term) ?? 0;
  return { ...noNumbers, n: recorded, missing, count, share: recorded === 0 ? null : count / recorded };
}

function numberRow(variable: NumberVariable, { groups, overall, reference }: Compared): CohortRow[] {
  const valuesOf = (records: readonly OutcomeRecord[]) =>
    records.flatMap(({ covariates }) => (covariates[variable] === null ? [] : [covariates[variable]]));
  if (valuesOf(overall).length === 0) return [];
  const base = valuesOf(groups.find(({ label }) => label === reference)!.records);
  return [
    {
      variable,
      term: null,
      unit: numberVariables[variable],
      overall: numberCell(valuesOf(overall), overall.length),
      groups: groups.map(({ records }) => numberCell(valuesOf(records), records.length)),
      standardised_differences: groups.map(({ label, records }) =>
        label === reference ? null : numberOf(standardisedDifference(valuesOf(records), base)),
      ),
    },
  ];
}

function numberCell(values: readonly number[], rows: number): CohortCell {
  const { mean, standardDeviation, median, lowerQuartile, upperQuartile } = describe(values);
  return {
    n: values.length,
    missing: rows - values.length,
    count: null,
    share: null,
    mean,
    standard_deviation: standardDeviation,
    median,
    lower_quartile: lowerQuartile,
    upper_quartile: upperQuartile,
  };
}

const noNumbers = {
  mean: null,
  standard_deviation: null,
  median: null,
  lower_quartile: null,
  upper_quartile: null,
};

const numberOf = (figure: Figure): number | null => figure.value;
