import { fact, plainly, quoted } from "./wording.js";
const thisColumn = () => "this column";
const mapAgain = 'Map the file again ("fit" with --mapping and the present mapping), and look at what it asks.';
const usedAsRead = "The rows are used as read.";
const leftOutWords = {
    preamble: "stands above the header",
    header: "is a header",
    units: "says the units of the columns",
    totals: "sums up other rows",
    footnote: "is a note below the table",
};
/** The words for doubts about a file that is read by a mapping. */
export const aboutMappings = {
    "mapping-header-not-found": plainly("has no row that looks like a header", "Say in the mapping in which rows it stands, as header_rows: [3].", { found: () => "this file" }),
    "mapping-column-gone": {
        found: thisColumn,
        expected: (query) => `is named in the mapping (for ${fact(query, "target")}) and not in the file`,
        mend: (query) => query.facts.near === undefined
            ? `Put the column back, or take it out of the mapping. ${mapAgain}`
            : `Was it renamed to ${quoted(fact(query, "near"))}? Then write that name in the mapping.`,
        consequence: "It counts as blank in every row.",
    },
    "mapping-column-new": plainly("was not in the file when it was mapped", `Add it to "not_used" in the mapping if it is not needed. ${mapAgain}`, { found: thisColumn, consequence: "The column is not read." }),
    "mapping-value-new": {
        expected: (query) => {
            const read = fact(query, "read_as");
            return read === ""
                ? "did not occur when the file was mapped, and what it means is not known"
                : `did not occur when the file was mapped, and is read as ${quoted(read)}`;
        },
        mend: (query) => `Write what it means under "values" of ${fact(query, "target")} in the mapping.`,
        consequence: "The rows are used or set aside as the cell can be read.",
    },
    "mapping-unit-shifted": {
        found: (query) => `the median of this column, ${quoted(query.found ?? "")},`,
        expected: (query) => `was ${fact(query, "before")} when the file was mapped: the unit or the decimal sign may have changed`,
        mend: () => `Check the numbers, and the unit in the mapping. ${mapAgain}`,
    },
    "mapping-date-order-changed": {
        expected: (query) => `cannot be ${fact(query, "order")}, as the mapping says, and no date of the column must be: the order may have changed`,
        mend: () => `Check the dates, and date_order in the mapping. ${mapAgain}`,
    },
    "mapping-sources-differ": {
        found: (query) => `${quoted(query.found ?? "")} (and in ${quoted(fact(query, "other_column"))}: ${quoted(fact(query, "other"))})`,
        expected: () => "are two entries for one thing",
        mend: () => "Correct one of the two cells, or leave it blank.",
        consequence: "The first is used.",
    },
    "row-left-out": {
        expected: (query) => `begins a row that is no record: it ${leftOutWords[fact(query, "kind")] ?? "is left out by the mapping"}`,
        mend: (query) => leftOutMend[fact(query, "kind")] ?? "Nothing to do if that is so.",
        consequence: "It is not counted among the rows.",
    },
    "cell-repaired": {
        expected: (query) => `holds what cannot be seen (${fact(query, "what")}) and is read without it`,
        mend: () => "Nothing to do; type the cell anew to be rid of it.",
        consequence: usedAsRead,
    },
};
const leftOutMend = {
    totals: "Nothing to do if that is so; if it is a record, begin it with the person.",
};
