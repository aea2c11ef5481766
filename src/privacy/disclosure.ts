import type { IdentifyingKind } from "../schema/identifying/patterns.js";
import type { LinkedTableName } from "../schema/table-names.js";
import type { ClassSizes } from "./classes.js";
import type { ShareSettings } from "./settings.js";

/** What was done to one column, and how much of it is left. */
export interface ColumnDisclosure {
  readonly table: LinkedTableName;
  readonly column: string;
  readonly done: "kept" | "renamed" | "moved" | "banded" | "only-on-scale" | "left-out";
  /** What was done in words, as `ages in bands of 5 years, 90 and over together`. */
  readonly says: string;
  /** Cells that held something in the rows used, and cells that hold something in the copy. */
  readonly cells_before: number;
  readonly cells_in_copy: number;
}

/** What leaves, what was done to it, and what somebody could still find out. All of it can be counted in the copy. */
export interface Disclosure {
  readonly format: "pulley-outcomes disclosure 1";
  readonly settings: Omit<ShareSettings, "closedOn">;
  readonly rows: readonly {
    readonly table: LinkedTableName;
    readonly used: number;
    readonly in_copy: number;
  }[];
  readonly people: number;
  readonly people_with_several_injuries: number;
  /** People whose calendar keeps the length of some month, since a date is known to the month only. */
  readonly people_with_months_kept: number;
  readonly columns: readonly ColumnDisclosure[];
  readonly combinations: {
    readonly k: number;
    readonly fields: readonly string[];
    readonly before: readonly ClassSizes[];
    readonly in_copy: readonly ClassSizes[];
    /** Whole columns made coarser, in the order in which it was done. */
    readonly made_coarser: readonly string[];
    readonly cells_left_out: readonly { readonly field: string; readonly cells: number }[];
    /** Rows of the injuries in the copy, as a spreadsheet numbers them, whose combination fewer than k people share. */
    readonly rare_rows: readonly { readonly row: number; readonly people: number }[];
  };
  /** Combinations of at least two people who all had, or all had not, the return that the study counts. */
  readonly one_outcome: { readonly classes: number; readonly people: number };
  /** Values of other columns of the injuries that fewer than k people share. */
  readonly rare_values: readonly {
    readonly column: string;
    readonly values: number;
    readonly people: number;
  }[];
  /** What free text in the rows used seems to hold; none of the text is in the copy. */
  readonly in_texts: readonly {
    readonly table: LinkedTableName;
    readonly column: string;
    readonly kind: IdentifyingKind;
    readonly texts: number;
  }[];
}
