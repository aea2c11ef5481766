import type { OutcomeRecord } from "../cohort/record.js";
import {
  describe,
  type Figure,
  standardisedDifference,
  standardisedDifferenceOfShares,
} from "../statistics/index.js";
import type { ExactCell, ExactResults, ExactRow } from "./exact-results.js";
import type { Group, Grouping } from "./groups.js";
import type { Plan } from "./plan.js";

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
export function cohortTable(comparison: Grouping, plan: Plan): ExactResults["cohort"] {
  const { groups } = comparison;
  const { by, reference } = plan.compare;
  return {
    by,
    reference,
    groups: groups.map(({ label, records }) => ({ label, n: records.length })),
    overall: sizeOf(groups),
    rows: describedRows({ groups, reference }, { omitted: by, withTreatment: false }),
  };
}

const sizeOf = (groups: readonly Group[]): number =>
  groups.reduce((sum, { records }) => sum + records.length, 0);

/**
 * Groups of injuries side by side: one row a term or a number, with the standardised difference of each group from the
 * reference on the first row of a variable.
 *
 * @param compared the groups, and the label of the reference
 * @param options omitted: a variable to leave out; withTreatment: whether the first treatment is one of the variables
 */
export function describedRows(
  compared: Compared,
  { omitted, withTreatment = true }: { readonly omitted: string | null; readonly withTreatment?: boolean },
): ExactRow[] {
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
  readonly reference: string;
}

/** A row for each term that occurs; none where nobody has the variable recorded. */
function termRows(variable: TermVariable, { groups, reference }: Compared): ExactRow[] {
  const counted = groups.map(({ records }) => countTerms(records, variable));
  const whole = together(counted);
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
  for (const record of records) {
    const term = termOf[variable](record);
    if (term === null) missing++;
    else counts.set(term, (counts.get(term) ?? 0) + 1);
  }
  return { counts, recorded: records.length - missing, missing };
}

/** One function a variable, so that each reads one place of a record. */
const termOf: Readonly<Record<TermVariable, (record: OutcomeRecord) => string | null>> = {
  first_treatment: ({ firstTreatment }) => firstTreatment,
  grade: ({ covariates }) => covariates.grade,
  finger: ({ covariates }) => covariates.finger,
  hand: ({ covariates }) => covariates.hand,
  sex: ({ covariates }) => covariates.sex,
  bowstringing: ({ covariates }) => covariates.bowstringing,
  onset: ({ covariates }) => covariates.onset,
  site_id: ({ covariates }) => covariates.site_id,
};

/** The counts of all groups. */
function together(counted: readonly TermCounts[]): TermCounts {
  const counts = new Map<string, number>();
  for (const group of counted)
    for (const [term, count] of group.counts) counts.set(term, (counts.get(term) ?? 0) + count);
  return {
    counts,
    recorded: counted.reduce((sum, { recorded }) => sum + recorded, 0),
    missing: counted.reduce((sum, { missing }) => sum + missing, 0),
  };
}

function termCell({ counts, recorded, missing }: TermCounts, term: string): ExactCell {
  const count = counts.get(term) ?? 0;
  return { ...noNumbers, n: recorded, missing, count, share: recorded === 0 ? null : count / recorded };
}

function numberRow(variable: NumberVariable, { groups, reference }: Compared): ExactRow[] {
  const values = groups.map(({ records }) => valuesOf(records, variable));
  const overall = values.flat();
  if (overall.length === 0) return [];
  const base = values[groups.findIndex(({ label }) => label === reference)]!;
  return [
    {
      variable,
      term: null,
      unit: numberVariables[variable],
      overall: numberCell(overall, sizeOf(groups)),
      groups: groups.map(({ records }, group) => numberCell(values[group]!, records.length)),
      standardised_differences: groups.map(({ label }, group) =>
        label === reference ? null : numberOf(standardisedDifference(values[group]!, base)),
      ),
    },
  ];
}

/** What is recorded of a number, in the order of the records. */
function valuesOf(records: readonly OutcomeRecord[], variable: NumberVariable): readonly number[] {
  const values: number[] = [];
  for (const { covariates } of records) {
    const value = covariates[variable];
    if (value !== null) values.push(value);
  }
  return values;
}

function numberCell(values: readonly number[], rows: number): ExactCell {
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
