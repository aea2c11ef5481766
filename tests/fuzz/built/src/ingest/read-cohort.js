import { StopError } from "../schema/stop-error.js";
import { tables } from "../schema/tables.js";
import { queriesCsv } from "./answers/queries-csv.js";
import { noAnswers, readAnswers } from "./answers/read-answers.js";
import { settle } from "./answers/settle.js";
import { questionsAboutFiles } from "./check-files.js";
import { asWrittenIn } from "./file-words.js";
import { ingestFiles } from "./ingest-files.js";
import { readTable } from "./read-table.js";
/**
 * Files to the typed tables of a cohort, with the account of every row and every doubt.
 *
 * Each file is read, its cells typed, each row held against itself, then the tables against each other. What is
 * wrong beyond doubt sets a row aside, and with an injury the rows that name it; what is odd is asked and used.
 * Rows read = rows used + rows set aside, for every file, or the run stops.
 *
 * The site's answers take effect on the way in: a changed cell is read and checked like any other, a row that is to be
 * left out is set aside with that reason, a doubt about what stands is not raised again.
 *
 * @param sources the linked tables (injuries needed), or one single sheet
 * @throws StopError with every reason at once, when a file cannot be read at all
 */
export function readCohort(sources, options) {
    const { answers, ...reading } = readingOf(options);
    const files = readFiles(sources, answers === null ? "some" : "every");
    const inWords = inWordsOf(files);
    if (answers === null) {
        return { ...inWords(ingestFiles(files, { ...reading, keep: "some" })), answers: null };
    }
    const { pass, queries, account } = settle(files, {
        answers,
        read: (amended) => ingestFiles(amended, { ...reading, keep: "every" }),
    });
    return { ...inWords({ ...pass, queries }), answers: account };
}
/** Says the doubts about files that were translated into our columns in the words of these files. */
function inWordsOf(files) {
    const asWritten = asWrittenIn(files);
    return ({ tables: used, accounts, queries }) => ({
        tables: used,
        accounts: accounts.map((account) => ({
            ...account,
            setAside: account.setAside.map(({ row, query }) => ({ row, query: asWritten(query) })),
        })),
        queries: queries.map(asWritten),
    });
}
/** The same as `readCohort`, with every doubt by its id. It takes more time and memory. */
export function readCohortForSite(sources, options) {
    const { answers, ...reading } = readingOf(options);
    const files = readFiles(sources, "every");
    const { pass, open, queries, account, raised } = settle(files, {
        answers: answers ?? noAnswers,
        read: (amended) => ingestFiles(amended, { ...reading, keep: "every" }),
    });
    const asWritten = asWrittenIn(files);
    return {
        ...inWordsOf(files)({ ...pass, queries }),
        answers: answers === null ? null : account,
        open: open.map((one) => ({ ...one, query: asWritten(one.query) })),
        csv: queriesCsv(raised, { answers, asWritten }),
    };
}
function readingOf({ closedOn, thresholdMm, dateOrder = "year-first", calendar = "common", answers, }) {
    return {
        context: { closedOn, dateOrder },
        link: { thresholdMm, calendar },
        answers: answers === undefined ? null : readAnswers(answers, { dateOrder }),
    };
}
function readFiles(sources, keep) {
    const stops = [...questionsAboutFiles(sources)];
    const files = new Map();
    for (const source of sources) {
        const read = "read" in source ? source.read : readTable(source, tables[source.table], { keep });
        stops.push(...read.queries.filter(({ severity }) => severity === "stop"));
        files.set(source.table, { file: source.file, read });
    }
    if (stops.length > 0)
        throw new StopError(stops);
    return files;
}
