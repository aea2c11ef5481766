import { banded } from "./bands.js";
import { equivalenceClasses, rareRows } from "./classes.js";
import type { SharedRow } from "./de-identify.js";
import type { Values } from "./persons.js";
import { cellOf, fieldLabel, leftOutValue } from "./quasi-fields.js";
import type { ShareSettings } from "./settings.js";

/** One rung: a whole column made coarser, the same way in every row. */
export interface Rung {
  readonly field: string;
  /** What is done, as the report says it. */
  readonly says: string;
  readonly coarser: (row: SharedRow) => unknown;
}

/** How far the bands of age are widened before age is left out. */
const widenings = [2, 4] as const;

/**
 * The rungs in the order in which they are taken: for each field, from the one that costs least, first coarser, then
 * left out. Fields that cannot be left out have no rung.
 *
 * @param fields as `quasiFields` orders them: what the study needs comes last
 */
export function rungsOf(fields: readonly string[], settings: ShareSettings): readonly Rung[] {
  return fields.flatMap((field): readonly Rung[] => {
    if (field === "grade") return [undividedFour];
    const none = leftOutValue(field);
    if (none === null) return [];
    const leaveOut: Rung = { field, says: `${fieldLabel(field)} left out`, coarser: () => none.value };
    return field === "age_at_injury"
      ? [...widenings.map((times) => widerAge(times, settings)), leaveOut]
      : [leaveOut];
  });
}

const widerAge = (times: number, { bandYears, oldest }: ShareSettings): Rung => {
  const width = bandYears * times;
  return {
    field: "age_at_injury",
    says: `age at injury in bands of ${width} years`,
    coarser: ({ injury }) => {
      const age = injury?.age_at_injury ?? null;
      return age === null ? null : banded(age, { width, highest: oldest });
    },
  };
};

const undividedFour: Rung = {
  field: "grade",
  says: "grades 4a and 4b joined as grade 4",
  coarser: ({ values }) => (values.grade === "4a" || values.grade === "4b" ? "4_undivided" : values.grade),
};

/** Rows after the rungs that were needed. */
export interface Generalised {
  readonly rows: readonly SharedRow[];
  readonly taken: readonly Rung[];
}

/** Takes rung after rung until every combination is shared by at least k people, or no rung is left. */
export function generalise(
  rows: readonly SharedRow[],
  { fields, settings }: { readonly fields: readonly string[]; readonly settings: ShareSettings },
): Generalised {
  let coarser = rows;
  const taken: Rung[] = [];
  for (const rung of rungsOf(fields, settings)) {
    if (rareRows(equivalenceClasses(combinationsOf(coarser, fields)), settings.k).length === 0) break;
    coarser = coarser.map((row) => ({ ...row, values: { ...row.values, [rung.field]: rung.coarser(row) } }));
    taken.push(rung);
  }
  return { rows: coarser, taken };
}

/** The combinations of rows in the fields counted. */
export const combinationsOf = (rows: readonly SharedRow[], fields: readonly string[]) =>
  rows.map(({ person, values }) => ({
    person: person ?? "",
    cells: fields.map((field) => cellOf(values as Values, field)),
  }));
