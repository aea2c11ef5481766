import type { MappingCode } from "../data-query.js";
import { fact, plainly, quoted, type Wording } from "./wording.js";

const thisColumn = () => "this column";
const mapAgain =
  'Run "pulley-outcomes fit" again, with --mapping and the present mapping, and answer its questions.';
const usedAsRead = "The rows are used as they were read.";

const leftOutWords: Readonly<Record<string, string>> = {
  preamble: "is above the header",
  header: "is a header",
  units: "gives the units of the columns",
  totals: "is a summary of other rows",
  footnote: "is a note below the table",
};

/** The words for queries about a file that is read by a mapping. */
export const aboutMappings: Record<MappingCode, Wording> = {
  "mapping-header-not-found": plainly(
    "has no row that looks like a header",
    "State the rows of the header in the mapping, for example header_rows: [3].",
    { found: () => "this file" },
  ),
  "mapping-column-gone": {
    found: thisColumn,
    expected: (query) => `is named in the mapping (for ${fact(query, "target")}) but is not in the file`,
    correction: (query) =>
      query.facts.near === undefined
        ? `Restore the column, or remove it from the mapping. ${mapAgain}`
        : `If it was renamed to ${quoted(fact(query, "near"))}, write that name in the mapping.`,
    consequence: "The column counts as blank in every row.",
  },
  "mapping-column-new": plainly(
    "was not in the file when the mapping was made",
    `Add it to "not_used" in the mapping if it is not needed. ${mapAgain}`,
    { found: thisColumn, consequence: "The column is not read." },
  ),
  "mapping-value-new": {
    expected: (query) => {
      const read = fact(query, "read_as");
      return read === ""
        ? "did not occur when the mapping was made, and its meaning is not known"
        : `did not occur when the mapping was made, and is read as ${quoted(read)}`;
    },
    correction: (query) => `Write what it means under "values" of ${fact(query, "target")} in the mapping.`,
    consequence: "A row is used if its cell can be read, and set aside otherwise.",
  },
  "mapping-unit-shifted": {
    found: (query) => `the median of this column, ${quoted(query.found ?? "")},`,
    expected: (query) =>
      `was ${fact(query, "before")} when the mapping was made: the unit or the decimal sign may have changed`,
    correction: () => `Check the numbers, and the unit in the mapping. ${mapAgain}`,
  },
  "mapping-date-order-changed": {
    expected: (query) =>
      `cannot be ${fact(query, "order")} as the mapping states, and no other date in the column has to be: the order may have changed`,
    correction: () => `Check the dates, and date_order in the mapping. ${mapAgain}`,
  },
  "mapping-sources-differ": {
    found: (query) =>
      `${quoted(query.found ?? "")} (and in ${quoted(fact(query, "other_column"))}: ${quoted(fact(query, "other"))})`,
    expected: () => "are two different entries for the same value",
    correction: () => "Correct one of the two cells, or leave it blank.",
    consequence: "The first entry is used.",
  },
  "row-left-out": {
    expected: (query) =>
      `begins a row that is not a record: it ${leftOutWords[fact(query, "kind")] ?? "is left out by the mapping"}`,
    correction: (query) => leftOutCorrections[fact(query, "kind")] ?? "No action is needed if that is right.",
    consequence: "The row is not counted among the rows read.",
  },
  "cell-repaired": {
    expected: (query) =>
      `contains a character that is invisible or looks like another (${fact(query, "what")}) and is read as if it were written normally`,
    correction: () => "No action is needed. Type the cell again to remove the character.",
    consequence: usedAsRead,
  },
  "cell-in-parts": {
    expected: (query) => `says more than its column holds, and is read as: ${fact(query, "what")}`,
    correction: () =>
      "Check that this is meant. If not, write under values in the mapping what the cell means.",
    consequence: usedAsRead,
  },
};

const leftOutCorrections: Readonly<Record<string, string>> = {
  totals: "No action is needed if that is right. If it is a record, write the person in its first cell.",
};
