import type { OutcomeRecord } from "../../cohort/record.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import type { ExactResults } from "../exact-results.js";
import type { Specification } from "../specification.js";
import { type CountedField, countedFields, type Filled, type RecordWithRow } from "./fields.js";
import { fieldGroups } from "./groupings.js";

type MissingValues = ExactResults["missing"];

/** Patterns told one by one. */
const patternsTold = 20;

/** What is missing of the analysed injuries: by field, by treatment and site, and which fields together. */
export function missingValuesOf(
  records: readonly OutcomeRecord[],
  tables: Pick<CohortTables, "injuries" | "imaging">,
  comparison: Pick<Specification["comparison"], "by" | "labels" | "adjustFor">,
): MissingValues {
  const rows = new Map(tables.injuries.map(({ values }) => [values.injury_id, values]));
  const all = records.map((record): RecordWithRow => ({ record, values: rows.get(record.injury)! }));
  const possible = countedFields({ hasImaging: tables.imaging.length > 0 });
  const states = new Map(possible.map((field) => [field, all.map(field.stateOf)]));
  const fields = possible.filter((field) => states.get(field)!.includes("filled"));
  const gaps = fields.map((field) =>
    Uint8Array.from(states.get(field)!, (state) => (state === "filled" ? 0 : 1)),
  );
  const placeOf = new Map(records.map((record, i) => [record, i]));
  const patterns = countPatterns(gaps, all.length);
  const inTheStudy = new Set<string>([comparison.by, ...comparison.adjustFor].map(rowField));
  return {
    n: all.length,
    fields: fields.map((field) => fieldCounts(field, states.get(field)!, inTheStudy)),
    never_filled: possible.filter((field) => !fields.includes(field)).map(({ field }) => field),
    complete: patterns.find(({ missing }) => !missing.includes(1))?.n ?? 0,
    groupings: fieldGroups(records, comparison).map(({ by, groups }) => ({
      by,
      groups: groups.map(({ label, records: own }) => {
        const places = own.map((record) => placeOf.get(record)!);
        return {
          label,
          n: own.length,
          missing: gaps.map((gap) => {
            const missing = places.reduce((sum, place) => sum + gap[place]!, 0);
            return { n: missing, share: missing / own.length };
          }),
        };
      }),
    })),
    ...patternsOf(patterns, fields),
  };
}

/** The field of the row on which a derived one rests. */
const rowField = (field: string): string => (field === "delay_days" ? "first_visit_date" : field);

function fieldCounts(
  { field }: CountedField,
  states: readonly Filled[],
  inTheStudy: ReadonlySet<string>,
): MissingValues["fields"][number] {
  const blank = states.filter((state) => state === "blank").length;
  const unknown = states.filter((state) => state === "unknown").length;
  const missing = blank + unknown;
  return {
    field,
    in_the_study: inTheStudy.has(field),
    blank,
    unknown,
    missing,
    share: missing / states.length,
  };
}

/** Fields that are missing together, and in how many injuries. */
interface Pattern {
  /** 1 for a missing field, 0 for one that is filled. */
  readonly missing: readonly number[];
  readonly n: number;
}

function countPatterns(gaps: readonly Uint8Array[], n: number): readonly Pattern[] {
  const counts = new Map<string, number>();
  for (let i = 0; i < n; i++) {
    let pattern = "";
    for (const gap of gaps) pattern += gap[i] === 1 ? "1" : "0";
    counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
  }
  return [...counts].map(([pattern, count]) => ({ missing: [...pattern].map(Number), n: count }));
}

function patternsOf(
  patterns: readonly Pattern[],
  fields: readonly CountedField[],
): Pick<MissingValues, "patterns" | "other_patterns"> {
  const counts = patterns.map(
    ({ missing, n }) =>
      [fields.flatMap(({ field }, i) => (missing[i] === 1 ? [field] : [])).join("\n"), n] as const,
  );
  const sorted = [...counts].sort(([one, n], [other, m]) => m - n || (one < other ? -1 : 1));
  const told = sorted.slice(0, patternsTold);
  const others = sorted.slice(patternsTold);
  return {
    patterns: told.map(([pattern, n]) => ({ fields: pattern === "" ? [] : pattern.split("\n"), n })),
    other_patterns: { patterns: others.length, n: others.reduce((sum, [, n]) => sum + n, 0) },
  };
}
