import { type ClassSizes, classSizes, equivalenceClasses, rareRows } from "./classes.js";
import type { SharedRow } from "./de-identify.js";
import { combinationsOf, generalise } from "./ladder.js";
import { fieldLabel, isOfPerson, leftOutValue } from "./quasi-fields.js";
import type { ShareSettings } from "./settings.js";
import { cellsToLeaveOut } from "./suppress.js";

/** Rows of the injuries after rare combinations were lessened, and what that took. */
export interface Lessened {
  readonly rows: readonly SharedRow[];
  readonly before: readonly ClassSizes[];
  readonly madeCoarser: readonly string[];
  readonly cellsLeftOut: readonly { readonly field: string; readonly cells: number }[];
  /** Places of the injuries left out whole, since no cell of them could be left out that would have been enough. */
  readonly leftOutWhole: ReadonlySet<number>;
  /** The site is gone from every row, so that the table of sites has nothing to belong to. */
  readonly siteLeftOut: boolean;
}

/** Does about rare combinations what the settings ask: nothing, whole columns coarser, or single cells left out. */
export function lessened(
  rows: readonly SharedRow[],
  { fields, settings }: { readonly fields: readonly string[]; readonly settings: ShareSettings },
): Lessened {
  const before = classSizes(equivalenceClasses(combinationsOf(rows, fields)), settings.k);
  const nothing = {
    rows,
    before,
    madeCoarser: [],
    cellsLeftOut: [],
    leftOutWhole: new Set<number>(),
    siteLeftOut: false,
  };
  if (settings.rare === "list") return nothing;
  if (settings.rare === "suppress") return { ...nothing, ...withoutCells(rows, { fields, settings }) };
  const { rows: coarser, taken } = generalise(rows, { fields, settings });
  return {
    ...nothing,
    rows: coarser,
    madeCoarser: taken.map(({ says }) => says),
    siteLeftOut: taken.some(({ field }) => field === "site_id"),
  };
}

/** The fields are in order of loss: each costs half a field more than the one before, what the study needs all of them more. */
const costOf = (
  field: string,
  {
    place,
    fields,
    settings,
  }: { readonly place: number; readonly fields: readonly string[]; readonly settings: ShareSettings },
): number => 1 + place / 2 + (settings.neededByStudy.includes(field) ? fields.length : 0);

function withoutCells(
  rows: readonly SharedRow[],
  { fields, settings }: { readonly fields: readonly string[]; readonly settings: ShareSettings },
): Pick<Lessened, "rows" | "cellsLeftOut" | "leftOutWhole"> {
  const leftOut = cellsToLeaveOut(combinationsOf(rows, fields), {
    fields: fields.map((field, i) => {
      const none = leftOutValue(field);
      return {
        blank: none === null ? null : (none.value ?? ""),
        cost: costOf(field, { place: i, fields, settings }),
        ofPerson: isOfPerson(field),
      };
    }),
    k: settings.k,
  });
  const cellsLeftOut = fields
    .map((field, i) => ({ field: fieldLabel(field), cells: leftOut.filter((row) => row[i]).length }))
    .filter(({ cells }) => cells > 0);
  const lessRows = rows.map((row, i) => {
    const gone = fields.filter((_, field) => leftOut[i]![field]);
    const values = gone.map((field) => [field, leftOutValue(field)!.value] as const);
    return gone.length === 0 ? row : { ...row, values: { ...row.values, ...Object.fromEntries(values) } };
  });
  const rare = rareRows(equivalenceClasses(combinationsOf(lessRows, fields)), settings.k);
  // where all are rare there are too few people for any copy; they are told, not left out
  return { cellsLeftOut, rows: lessRows, leftOutWhole: new Set(rare.length < rows.length ? rare : []) };
}
