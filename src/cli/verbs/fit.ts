import { basename, dirname, join } from "node:path";
import { type Grid, shapeSheet } from "../../ingest/index.js";
import {
  applyMapping,
  bookLine,
  codesFor,
  gridToFit,
  isSchemaForFile,
  type Mapping,
  mappingNameFor,
  mappingSchemaFor,
  mappingText,
  nothingSaid,
  type OddShape,
  oddShapeOf,
  type Proposal,
  proposeMapping,
  proposeOptionsOf,
  readMapping,
  type Said,
  SheetError,
} from "../../ingest/mapping/index.js";
import { groupQueries, groupText, jsonText, type TableName } from "../../schema/index.js";
import { confirm, isAtTerminal } from "../confirm.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { isUnchangedMapping, markedMapping } from "../fitting/mapping-mark.js";
import { commentsOf, findings, outcome, reading } from "../fitting/say-fit.js";
import { settleAtTerminal } from "../fitting/settle-questions.js";
import { mustHaveRoomFor } from "../own-process.js";
import { readInput, readSettingsFile } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { type FileOptions, refuseFile, writeNewFile } from "../writing/index.js";

export interface FitOptions {
  readonly into?: string;
  readonly sheet?: string;
  readonly headerRows?: readonly number[];
  readonly mapping?: string;
  /** A file that says what codes stand for. */
  readonly codes?: string;
  readonly table: TableName;
  readonly replace?: boolean;
  /** Commander's name for --no-questions. */
  readonly questions: boolean;
}

/** Proposes a mapping for a file in a site's own columns, asks what it cannot decide, and writes it. */
export async function fit(file: string, options: FitOptions, terminal: Terminal): Promise<ExitCode> {
  const into = options.into ?? join(dirname(file), "mapping.yaml");
  const writing = writingOf(file, options);
  await refuseFile(into, writing);
  const beside = schemaBeside(into, writing);
  await refuseFile(beside.path, beside.options);
  const earlier = options.mapping === undefined ? null : await earlierMapping(options.mapping, terminal);
  const bytes = await readInput(file, { what: "file", by: "the command line" });
  mustHaveRoomFor([{ file: basename(file), bytes }]);
  const { grid, others } = await gridToFit({
    file: basename(file),
    bytes,
    table: earlier?.table ?? options.table,
    sheet: options.sheet ?? earlier?.sheet ?? null,
  });
  const table = earlier?.table ?? options.table;
  const isNamed = (options.sheet ?? earlier?.sheet ?? null) !== null;
  refuse(await oddShapeOf(grid, { source: { file: basename(file), bytes }, others, table, isNamed }));
  if (earlier !== null) sayDrift(grid, { earlier, terminal });
  const sheet = sheetOf(grid, options);
  const book = await codesFor(sheet, {
    source: { file: basename(file), bytes },
    sheets: grid.sheet === null ? [] : others,
    ...(options.codes === undefined ? {} : { codes: await codeFile(options.codes) }),
  });
  if (book !== null) terminal.say(bookLine(book));
  const propose = (said: Said): Proposal =>
    proposeMapping(sheet, {
      name: earlier?.mapping ?? mappingNameFor(basename(file)),
      table: earlier?.table ?? options.table,
      ...proposeOptionsOf(said),
      ...(book === null ? {} : { codes: book.codes }),
      ...(earlier === null ? {} : { earlier }),
    });
  const first = propose(nothingSaid);
  terminal.say(findings(first, { grid, sheet, file, others }));
  const isConversation = options.questions && isAtTerminal();
  const proposal = isConversation ? await settleAtTerminal(first, propose) : first;
  const { mapping } = proposal;
  const withHeader =
    options.headerRows === undefined ? mapping : { ...mapping, header_rows: [...options.headerRows] };
  terminal.say(reading(withHeader, { grid, file }));
  if (isConversation) await mustBeWanted();
  const schema = basename(beside.path);
  const text = markedMapping(mappingText(withHeader, commentsOf(proposal, { file, schema })));
  await writeNewFile(into, text, writing);
  await writeNewFile(beside.path, jsonText(mappingSchemaFor(withHeader)), beside.options);
  terminal.say(outcome(withHeader, { file, into, schema: beside.path }));
  return mapping.undecided.length > 0 ? exitCodes.found : exitCodes.done;
}

const codeFile = async (path: string) => ({
  file: basename(path),
  bytes: await readInput(path, { what: "code book", by: "the command line" }),
});

/** @throws SheetError where a sheet would be read wrongly without a word */
function refuse(odd: OddShape | null): void {
  if (odd === null) return;
  const { kind, found, change } = odd;
  const goOn = { "persons-across": " Then run fit on that.", "several-sheets": "" }[kind];
  const orOne = kind === "several-sheets" ? "\n  If only one of them is meant, name it with --sheet." : "";
  throw new SheetError(`${found}\n  ${change}${goOn}${orOne}`);
}

/** @throws CommandError where somebody at the terminal does not want the mapping as it is */
async function mustBeWanted(): Promise<void> {
  const question = "Write this mapping? Anything in it can still be corrected in the file.";
  if (await confirm(question)) return;
  throw new CommandError(exitCodes.usage, "Nothing was written.");
}

/** The schema of the mapping, for editors: made anew with each mapping, and never in the place of another file. */
function schemaBeside(
  into: string,
  { inputs }: FileOptions,
): { readonly path: string; readonly options: FileOptions } {
  const path = `${into.replace(/\.ya?ml$/i, "")}.schema.json`;
  const elsewhere = "Choose another name with --into: the schema of the mapping is written beside it";
  return { path, options: { inputs, mayReplace: isSchemaForFile, elsewhere } };
}

/** What may give way to the mapping: with --replace an earlier mapping, never a file that is read. */
const writingOf = (file: string, { mapping, replace }: FitOptions): FileOptions => ({
  inputs: mapping === undefined ? [file] : [file, mapping],
  mayReplace: replace === true ? isUnchangedMapping : null,
  elsewhere:
    replace === true
      ? "Choose another name with --into"
      : "Choose another name with --into, or add --replace; to keep its contents, name it with --mapping",
});

async function earlierMapping(path: string, { notice }: Terminal): Promise<Mapping> {
  const file = basename(path);
  const named = { what: "mapping", by: "the command line", name: file, notice };
  const { text } = await readSettingsFile(path, named);
  return readMapping({ file, text }, { undecided: "kept" });
}

function sheetOf(grid: Grid, { headerRows }: FitOptions) {
  const sheet = shapeSheet(grid, headerRows === undefined ? {} : { headerRows });
  if (sheet !== null && sheet.records.length > 0) return sheet;
  throw new CommandError(
    exitCodes.input,
    sheet === null
      ? `${grid.file}: no row looks like a header.\n  Name the rows of the header, for example --header-rows 3 or --header-rows 3,4.`
      : `${grid.file}: there is a header but no row below it.\n  Export the file again, with its rows.`,
  );
}

/** What has changed since the earlier mapping was made. */
function sayDrift(
  grid: Grid,
  { earlier, terminal }: { readonly earlier: Mapping; readonly terminal: Terminal },
): void {
  const drift = applyMapping(grid, earlier).queries.filter(({ code }) => code.startsWith("mapping-"));
  terminal.say(
    drift.length === 0
      ? "The file has the same form as when the mapping was made."
      : ["What has changed since the mapping was made:", ...groupQueries(drift).map(groupText), ""].join(
          "\n",
        ),
  );
}
