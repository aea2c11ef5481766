import type { OutcomeRecord } from "../../cohort/record.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import type { Plan } from "../plan.js";
import type { Results } from "../results.js";
import { type CountedField, countedFields, type Filled, type RecordWithRow } from "./fields.js";
import { fieldGroups } from "./groupings.js";

type MissingValues = Results["missing"];

/** Patterns told one by one. */
const patternsTold = 20;

/** What is missing of the analysed injuries: by field, by treatment and site, and which fields together. */
export function missingValuesOf(
  records: readonly OutcomeRecord[],
  tables: Pick<CohortTables, "injuries" | "imaging">,
  plan: Plan,
): MissingValues {
  const rows = new Map(tables.injuries.map(({ values }) => [values.injury_id, values]));
  const all = records.map((record): RecordWithRow => ({ record, values: rows.get(record.injury)! }));
  const possible = countedFields({ hasImaging: tables.imaging.length > 0 });
  const states = new Map(possible.map((field) => [field, all.map(field.stateOf)]));
  const fields = possible.filter((field) => states.get(field)!.includes("filled"));
  const isMissing = new Map(
    all.map(({ record }, place) => [record, fields.map((field) => states.get(field)![place] !== "filled")]),
  );
  const inTheStudy = new Set<string>([plan.compare.by, ...plan.compare.adjust_for].map(rowField));
  return {
    n: all.length,
    fields: fields.map((field) => fieldCounts(field, states.get(field)!, inTheStudy)),
    never_filled: possible.filter((field) => !fields.includes(field)).map(({ field }) => field),
    complete: [...isMissing.values()].filter((gaps) => !gaps.includes(true)).length,
    groupings: fieldGroups(records, plan).map(({ by, groups }) => ({
      by,
      groups: groups.map(({ label, records: own }) => ({
        label,
        n: own.length,
        missing: fields.map((_, place) => {
          const missing = own.filter((record) => isMissing.get(record)![place]).length;
          return { n: missing, share: missing / own.length };
        }),
      })),
    })),
    ...patternsOf([...isMissing.values()], fields),
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

function patternsOf(
  gaps: readonly (readonly boolean[])[],
  fields: readonly CountedField[],
): Pick<MissingValues, "patterns" | "other_patterns"> {
  const counts = new Map<string, number>();
  for (const missing of gaps) {
    const pattern = fields.flatMap(({ field }, place) => (missing[place] ? [field] : [])).join("\n");
    counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
  }
  const sorted = [...counts].sort(([one, n], [other, m]) => m - n || (one < other ? -1 : 1));
  const told = sorted.slice(0, patternsTold);
  const others = sorted.slice(patternsTold);
  return {
    patterns: told.map(([pattern, n]) => ({ fields: pattern === "" ? [] : pattern.split("\n"), n })),
    other_patterns: { patterns: others.length, n: others.reduce((sum, [, n]) => sum + n, 0) },
  };
}
