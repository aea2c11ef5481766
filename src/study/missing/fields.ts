import type { OutcomeRecord } from "../../cohort/record.js";
import type { Field } from "../../schema/field.js";
import type { InjuryRow } from "../../schema/injuries.js";
import { tables } from "../../schema/tables.js";
import { notKnown } from "../../schema/terms.js";

/** Whether a value is there, is not, or is said not to be known. */
export type Filled = "filled" | "blank" | "unknown";

/** An analysed injury with its row. */
export interface RecordWithRow {
  readonly record: OutcomeRecord;
  readonly values: InjuryRow;
}

/** A field whose gaps are counted. */
export interface CountedField {
  readonly field: string;
  readonly stateOf: (one: RecordWithRow) => Filled;
}

const sayUnknown: ReadonlySet<unknown> = new Set(notKnown);

/**
 * The fields whose gaps are counted: those of the injuries in which a blank says nothing (a blank date of return says
 * 'not yet', and is no gap), and the first loaded distance where there is imaging.
 */
export function countedFields({ hasImaging }: { readonly hasImaging: boolean }): readonly CountedField[] {
  const ofRow = (tables.injuries.fields as readonly Field[]).filter(isCounted).map(
    ({ name }): CountedField => ({
      field: name,
      stateOf: ({ values }) => {
        const value = values[name as keyof InjuryRow];
        return value === null ? "blank" : sayUnknown.has(value) ? "unknown" : "filled";
      },
    }),
  );
  const distance: CountedField = {
    field: "distance_loaded_first",
    stateOf: ({ record }) => (record.covariates.distance_loaded_first === null ? "blank" : "filled"),
  };
  return hasImaging ? [...ofRow, distance] : ofRow;
}

function isCounted({ mayBeBlank, required, blankSays, terms }: Field): boolean {
  if (mayBeBlank || blankSays !== undefined) return false;
  return !required || (terms ?? []).some((term) => sayUnknown.has(term));
}
