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
export interface QueryInWords {
  /** File, row as the spreadsheet shows it, column. */
  readonly where: string;
  /** What stands there: the only part that repeats values of the file. */
  readonly found: string;
  /** What is wrong with it, or was expected; continues the sentence. */
  readonly expected: string;
  /** How to correct it. */
  readonly correction: string;
  /** What happens until then. */
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
export function sayQuery(query: DataQuery): QueryInWords {
  const wording = words[query.code];
  return {
    where: oneLine(placeOf(query)),
    found: oneLine(wording.found?.(query) ?? quoted(query.found ?? "")),
    expected: oneLine(wording.expected(query)),
    correction: oneLine(wording.correction(query)),
    consequence: oneLine(consequenceOf(query, wording)),
  };
}

/**
 * A query as a person reads it: where, what was found and expected, then how to correct it and what happens until then.
 *
 * @example
 * const place = { file: "injuries.csv", row: 14, column: "grade", injury: null };
 * const query = { code: "grade-without-letter", severity: "set-aside", found: "IV", facts: {}, ...place };
 * // the lines below it say what to write instead, and that the row is set aside until this is corrected
 * queryText(query).split("\n")[0] // => 'injuries.csv, row 14, column "grade": "IV" does not say whether 4a or 4b is meant.'
 */
export function queryText(query: DataQuery): string {
  const { where, found, expected, correction, consequence } = sayQuery(query);
  return `${where}: ${found} ${expected}.\n  ${correction}\n  ${consequence}`;
}

function placeOf({ file, row, column }: DataQuery): string {
  const parts = [file, row === null ? "" : `row ${row}`, column === null ? "" : `column ${quoted(column)}`];
  return parts.filter((part) => part !== "").join(", ");
}

const usual: Record<Severity, string> = {
  stop: "No data are read until this is corrected.",
  "set-aside": "The row is set aside until this is corrected.",
  "look-at": "The row is used as it is.",
};

const visitNotUsed =
  "Until this is corrected, the visit is not used. What the row says of the injury is used.";

function consequenceOf({ code, severity, facts }: DataQuery, wording: Wording): string {
  if (severity === "stop") return usual.stop;
  if (facts.unused === "visit") return visitNotUsed;
  if (wording.consequence !== undefined) return wording.consequence;
  return severity === "look-at" && aboutOneCell.has(code)
    ? "Until this is corrected, the cell counts as blank and the row is used."
    : usual[severity];
}

const aboutOneCell: ReadonlySet<QueryCode> = new Set<QueryCode>(cellCodes);
