import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { indexOfCodes } from "../shared/codes.js";
import type { NamesOf } from "../shared/options.js";

/** One value a row, with the group it belongs to. */
export interface GroupedValues {
  readonly values: ArrayLike<number>;
  /** Whole numbers, as long as the values. */
  readonly groups: ArrayLike<number>;
}

export const groupedValuesNames: NamesOf<GroupedValues> = { values: true, groups: true };

/** @throws ArgumentError naming the column and index at fault */
export function groupsOf({ values, groups }: GroupedValues): { codes: number[]; index: Int32Array } {
  checkSameLength({ name: "groups", values: groups }, { name: "values", values });
  checkColumn({ name: "values", values }, "finite");
  checkColumn({ name: "groups", values: groups }, "code");
  return indexOfCodes(groups);
}
