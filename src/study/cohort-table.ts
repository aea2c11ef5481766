import type { OutcomeRecord } from "../cohort/record.js";
import {
  type AdjustableNumber,
  adjustableNumbers,
  type Comparable,
  comparable,
} from "../schema/covariates.js";
import { derivedVariables } from "../schema/derived-variables.js";
import type { Field } from "../schema/field.js";
import { tables } from "../schema/tables.js";
import {
  describe,
  type Figure,
  standardisedDifference,
  standardisedDifferenceOfShares,
} from "../statistics/index.js";
import type { ExactCell, ExactResults, ExactRow } from "./exact-results.js";
import { type Grouping, groupValue, type Members } from "./groups.js";
import type { Specification } from "./specification.js";

/** Characteristics with terms, in the order of the table. */
const first: readonly Comparable[] = ["first_treatment", "grade", "finger", "hand", "sex"];
const last: readonly Comparable[] = ["site_id"];
const termVariables: readonly Comparable[] = [
  ...first,
  ...comparable.filter((variable) => !first.includes(variable) && !last.includes(variable)),
  ...last,
];

/** The unit of each number, UCUM. */
const units: ReadonlyMap<string, string | null> = new Map([
  ...(tables.injuries.fields as readonly Field[]).map(({ name, unit = null }) => [name, unit] as const),
  ...Object.entries(derivedVariables).map(([name, { unit }]) => [name, unit] as const),
]);

/** Who is in the compared groups, and how unlike the groups are: one row a term or a number. */
export function cohortTable(
  { groups }: Grouping,
  { by, reference }: Pick<Specification["comparison"], "by" | "reference">,
): ExactResults["cohort"] {
  return {
    by,
    reference,
    groups: groups.map(({ label, records }) => ({ label, n: records.length })),
    overall: sizeOf(groups),
    rows: describedRows({ groups, reference }, { omitted: by, withTreatment: false }),
  };
}

const sizeOf = (groups: readonly Members[]): number =>
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
    ...adjustableNumbers.flatMap((variable) => numberRow(variable, compared)),
  ];
}

export interface Compared {
  readonly groups: readonly Members[];
  readonly reference: string;
}

/** A row for each term that occurs; none where nobody has the variable recorded. */
function termRows(variable: Comparable, { groups, reference }: Compared): ExactRow[] {
  const counted = groups.map(({ records }) => countTerms(records, variable));
  const whole = together(counted);
  const terms = [...whole.counts.keys()].sort();
  const countsOf = ({ counts }: TermCounts) => terms.map((term) => counts.get(term) ?? 0);
  const base = countsOf(counted[groups.findIndex(({ label }) => label === reference)]!);
  return terms.map((term, i) => ({
    variable,
    term,
    unit: null,
    overall: termCell(whole, term),
    groups: counted.map((counts) => termCell(counts, term)),
    standardised_differences: groups.map(({ label }, group) =>
      i > 0 || label === reference
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

function countTerms(records: readonly OutcomeRecord[], variable: Comparable): TermCounts {
  const counts = new Map<string, number>();
  let missing = 0;
  for (const record of records) {
    const term = groupValue(record, variable);
    if (term === null) missing++;
    else counts.set(term, (counts.get(term) ?? 0) + 1);
  }
  return { counts, recorded: records.length - missing, missing };
}

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

function numberRow(variable: AdjustableNumber, { groups, reference }: Compared): ExactRow[] {
  const values = groups.map(({ records }) => valuesOf(records, variable));
  const overall = values.flat();
  if (overall.length === 0) return [];
  const base = values[groups.findIndex(({ label }) => label === reference)]!;
  return [
    {
      variable,
      term: null,
      unit: units.get(variable) ?? null,
      overall: numberCell(overall, sizeOf(groups)),
      groups: groups.map(({ records }, group) => numberCell(values[group]!, records.length)),
      standardised_differences: groups.map(({ label }, group) =>
        label === reference ? null : numberOf(standardisedDifference(values[group]!, base)),
      ),
    },
  ];
}

/** What is recorded of a number, in the order of the records. */
function valuesOf(records: readonly OutcomeRecord[], variable: AdjustableNumber): readonly number[] {
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
