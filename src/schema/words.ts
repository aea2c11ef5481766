import { cellCodes, type DataQuery, type QueryCode, type Severity } from "./data-query.js";
import { oneLine } from "./hidden-characters.js";
import { aboutAnswers } from "./words/about-answers.js";
import { aboutCells } from "./words/about-cells.js";
import { aboutFiles } from "./words/about-files.js";
import { aboutHabits } from "./words/about-habits.js";
import { aboutHistories } from "./words/about-histories.js";
import { aboutLinks } from "./words/about-links.js";
import { aboutMappings } from "./words/about-mappings.js";
import { aboutRows } from "./words/about-rows.js";
import { quoted, type Wording } from "./words/wording.js";

/** The parts of a query in words, in the order in which they are shown. */
export interface SaidQuery {
  /** File, row as the spreadsheet shows it, column. */
  readonly where: string;
  /** What stands there: the only part that repeats values of the file. */
  readonly found: string;
  /** What is the matter with it; continues the sentence. */
  readonly expected: string;
  /** How to mend it. */
  readonly mend: string;
  /** What happens meanwhile. */
  readonly consequence: string;
}

/** A code without words does not compile. */
const words: Record<QueryCode, Wording> = {
  ...aboutFiles,
  ...aboutCells,
  ...aboutRows,
  ...aboutLinks,
  ...aboutHistories,
  ...aboutHabits,
  ...aboutAnswers,
  ...aboutMappings,
};

/** The parts of a query in words. */
export function sayQuery(query: DataQuery): SaidQuery {
  const wording = words[query.code];
  return {
    where: oneLine(placeOf(query)),
    found: oneLine(wording.found?.(query) ?? quoted(query.found ?? "")),
    expected: oneLine(wording.expected(query)),
    mend: oneLine(wording.mend(query)),
    consequence: oneLine(consequenceOf(query, wording)),
  };
}

/**
 * A query as a person reads it: where, what was found and expected, then how to mend it and what happens meanwhile.
 *
 * @example
 * const place = { file: "injuries.csv", row: 14, column: "grade", injury: null };
 * const query = { code: "grade-without-letter", severity: "set-aside", found: "IV", facts: {}, ...place };
 * // below this line stand what to write instead, and "The row is set aside until then."
 * queryText(query).split("\n")[0] // => 'injuries.csv, row 14, column "grade": "IV" does not say whether 4a or 4b.'
 */
export function queryText(query: DataQuery): string {
  const { where, found, expected, mend, consequence } = sayQuery(query);
  return `${where}: ${found} ${expected}.\n  ${mend}\n  ${consequence}`;
}

function placeOf({ file, row, column }: DataQuery): string {
  const parts = [file, row === null ? "" : `row ${row}`, column === null ? "" : `column ${quoted(column)}`];
  return parts.filter((part) => part !== "").join(", ");
}

const usual: Record<Severity, string> = {
  stop: "Nothing is read until then.",
  "set-aside": "The row is set aside until then.",
  "look-at": "The row is used as it stands.",
};

function consequenceOf({ code, severity }: DataQuery, wording: Wording): string {
  if (severity === "stop") return usual.stop;
  if (wording.consequence !== undefined) return wording.consequence;
  return severity === "look-at" && aboutOneCell.has(code)
    ? "The cell counts as blank until then; the row is used."
    : usual[severity];
}

const aboutOneCell: ReadonlySet<QueryCode> = new Set<QueryCode>(cellCodes);
