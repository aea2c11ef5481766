import type { AnswerAccount } from "../schema/accounting.js";
import type { ExactResults } from "./exact-results.js";

/** The account of the site's answers as results. */
export function answersOf(account: AnswerAccount | null | undefined): ExactResults["answers"] {
  if (account === null || account === undefined) return null;
  const { file, read, blank, used, repeated, notUsed, cellsChanged, rowsLeftOut } = account;
  return {
    file,
    read,
    blank,
    used: { ...used },
    repeated,
    not_used: { ...notUsed },
    cells_changed: cellsChanged,
    rows_left_out: rowsLeftOut,
  };
}
