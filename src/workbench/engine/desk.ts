import type { Proposal } from "../../ingest/mapping/index.js";
import {
  mappingText,
  nothingSaid,
  type Said,
  sayAnswer,
  sayColumn,
  takeAnswer,
} from "../../ingest/mapping/index.js";
import { buildReport, resultsOf } from "../../run/build-report.js";
import type { Machine } from "../../run/machine.js";
import { openStudy, type StudyInput } from "../../run/open-study.js";
import { plainStudyText } from "../../run/plain-study.js";
import { filesOf } from "../../run/study-files.js";
import { labelOf, oneLine, tableNames } from "../../schema/index.js";
import type { Plan } from "../../study/plan.js";
import { readPlan } from "../../study/read-plan.js";
import { usualSmallestCell } from "../../study/small-cells/index.js";
import { inventTables, readScenario } from "../../synthetic/index.js";
import { BringError, isStudyFile, type SheetOfFile, sheetOf, tableOfColumns } from "./bring.js";
import { columnsView, proposalFor } from "./columns.js";
import { checkView, holdsAnswers, withAnswer } from "./queries.js";
import { readView } from "./reading.js";
import { askView, firstQuestion, newPlan, studyName, withChoices } from "./study-draft.js";
import { archiveOf } from "./take-away.js";
import { talkFile } from "./talk.js";
import type { Brought, NamedBytes, Tasks } from "./tasks.js";

/** A sheet in a site's own columns, and what was said about it. */
interface SheetOnDesk extends SheetOfFile {
  readonly file: NamedBytes;
  readonly said: Said;
  readonly proposal: Proposal;
}

const mappingFile = "mapping.yaml";
const answersFile = "answers.csv";
const smallCells = { choice: "written", smallest: usualSmallestCell } as const;

/**
 * The desk of the workbench: it holds the very files that the command line would read (data, mapping, answers, study file),
 * each step of the page changes one of them, and every answer is that of a run on these files.
 *
 * @param machine what a run needs of the page
 * @param progress told what is being done
 */
export function deskOn(machine: Machine, progress: (step: string) => void): Tasks {
  const files = new Map<string, Uint8Array>();
  let plan: Plan | null = null;
  let sheet: SheetOnDesk | null = null;
  let list = "";
  /** Whether the question is still the one that the desk began with. */
  let isOwnQuestion = false;

  const planned = (): Plan => {
    if (plan === null) throw new BringError("There are no data yet.\n  Bring a file first.");
    return plan;
  };

  const opened = async (
    purpose: "for a report" | "for the site",
  ): Promise<{ study: StudyInput; notices: string[] }> => {
    const notices: string[] = [];
    const folder = {
      name: studyName,
      bytes: new TextEncoder().encode(plainStudyText(planned())),
      shownNames: () => (file: string) => file,
      open: (file: string) => Promise.resolve(fileNamed(file)),
    };
    const listener = { progress, notice: (text: string) => notices.push(text), sha256: machine.sha256 };
    return { study: await openStudy(folder, listener, { purpose }), notices };
  };

  const fileNamed = (name: string): Uint8Array => {
    const bytes = files.get(name) ?? files.get(name.split("/").at(-1)!);
    if (bytes === undefined)
      throw new BringError(
        `The study names the file "${name}", which was not brought.\n  Bring it together with the study file.`,
      );
    return bytes;
  };

  const bring = async (brought: readonly NamedBytes[]): Promise<Brought> => {
    files.clear();
    [plan, sheet, list] = [null, null, ""];
    isOwnQuestion = !brought.some(isStudyFile);
    for (const { name, bytes } of brought) files.set(name, bytes);
    const studies = brought.filter((file) => isStudyFile(file) && isStudyText(file));
    if (studies.length > 1)
      throw new BringError(
        `${studies.map(({ name }) => name).join(", ")}: two study files.\n  Bring one of them.`,
      );
    const [study] = studies;
    return study === undefined ? withoutStudy(brought) : withStudy(study);
  };

  const withStudy = (study: NamedBytes): Brought => {
    const read = readPlan(study.name, new TextDecoder().decode(study.bytes));
    for (const name of filesOf(read)) fileNamed(name);
    plan = read;
    return { kind: "study", files: filesOf(read), synthetic: read.synthetic };
  };

  const withoutStudy = async (brought: readonly NamedBytes[]): Promise<Brought> => {
    const sheets = await Promise.all(
      brought.map(async (file) => {
        progress(`looking at ${file.name}`);
        const found = await sheetOf(file, null);
        return { file, found, table: tableOfColumns(found.sheet) };
      }),
    );
    const own = sheets.filter(({ table }) => table === null);
    if (own.length === 0) {
      const data = Object.fromEntries(sheets.map(({ file, table }) => [table, file.name]));
      if (Object.keys(data).length < sheets.length)
        throw new BringError("Two of the files are the same table.\n  Bring each table once.");
      plan = newPlan({ ...data, date_order: "year-first" }, brought);
      return {
        kind: "tables",
        tables: sheets.map(({ file, table, found }) => ({
          table: labelOf(table!),
          file: file.name,
          rows: found.sheet.records.length,
        })),
      };
    }
    if (sheets.length > 1)
      throw new BringError(
        `${own.map(({ file }) => file.name).join(", ")}: these columns are not those of the toolkit's tables.\n  Bring one spreadsheet in your own columns, or all tables in the columns of the toolkit (${tableNames.map(labelOf).join(", ")}).`,
      );
    const { file, found } = own[0]!;
    layOut({ file, ...found, said: nothingSaid });
    return { kind: "sheet", columns: columnsOnDesk() };
  };

  /** Proposes how the sheet is read, and writes it into the mapping and the plan. */
  const layOut = (asked: Omit<SheetOnDesk, "proposal">): void => {
    const proposal = proposalFor(asked, asked.said);
    sheet = { ...asked, proposal };
    const mapping = {
      ...proposal.mapping,
      ...(asked.sheet.sheet === null ? {} : { sheet: asked.sheet.sheet }),
    };
    files.set(
      mappingFile,
      new TextEncoder().encode(mappingText(mapping, { head: [], settings: {}, columns: {} })),
    );
    files.delete(answersFile);
    const data = {
      single_sheet: asked.file.name,
      mappings: { single_sheet: mappingFile },
      date_order: "year-first" as const,
    };
    plan =
      plan === null
        ? newPlan(data, [asked.file])
        : {
            ...plan,
            data: {
              ...data,
              ...(plan.data.closed_on === undefined ? {} : { closed_on: plan.data.closed_on }),
            },
          };
  };

  const columnsOnDesk = () => {
    if (sheet === null) throw new BringError("There is no sheet in a site's own columns.");
    return columnsView(sheet, sheet);
  };

  const columns: Tasks["columns"] = async (change) => {
    if (sheet === null) throw new BringError("There is no sheet in a site's own columns.");
    const { file, said } = sheet;
    if (change.kind === "sheet") layOut({ file, ...(await sheetOf(file, change.sheet)), said: nothingSaid });
    else if (change.kind === "start-over") layOut({ ...sheet, said: nothingSaid });
    else if (change.kind === "column") layOut({ ...sheet, said: sayColumn(said, change) });
    else if (sheet.odd?.sheets.includes(change.answer) === true)
      layOut({ file, ...(await sheetOf(file, change.answer)), said: nothingSaid });
    else layOut({ ...sheet, said: saidWith(sheet, change) });
    return columnsOnDesk();
  };

  const check: Tasks["check"] = async () => {
    const { study, notices } = await opened("for the site");
    list = study.forSite!.csv;
    return checkView(study.forSite!, {
      notices,
      dateOrder: sheet === null ? study.plan.data.date_order : null,
    });
  };

  const settle: Tasks["settle"] = async (given) => {
    const answered = withAnswer(list, given);
    const { answers: _before, ...data } = planned().data;
    if (holdsAnswers(answered)) {
      files.set(answersFile, new TextEncoder().encode(answered));
      plan = { ...planned(), data: { ...data, answers: answersFile } };
    } else {
      files.delete(answersFile);
      plan = { ...planned(), data };
    }
    return check();
  };

  const ask: Tasks["ask"] = async (change) => {
    plan = withChoices(planned(), change);
    const { read: cohort } = (await opened("for a report")).study;
    const asked = askView(plan, cohort);
    if (!isOwnQuestion || asked.injuries === 0) return asked;
    // nobody has asked anything yet: a question about groups that do not occur is no beginning
    isOwnQuestion = false;
    plan = withChoices(plan, firstQuestion(asked));
    return askView(plan, cohort);
  };

  const read: Tasks["read"] = async () => {
    const { study } = await opened("for a report");
    progress("estimating");
    const results = await resultsOf(study, smallCells);
    progress("drawing figures");
    return readView(results, machine.version);
  };

  const takeAway: Tasks["takeAway"] = async () => {
    const { study } = await opened("for a report");
    const built = await buildReport(study, smallCells, { ...machine, progress });
    progress("packing");
    const own = filesOf(planned()).map((name) => ({ path: name, content: fileNamed(name) }));
    const report = built.files.map(({ path, content }) => ({ path: `report/${path}`, content }));
    const bytes = archiveOf([{ path: studyName, content: plainStudyText(planned()) }, ...own, ...report]);
    return {
      name: `${planned().synthetic ? "synthetic-" : ""}${planned().study.replace(/^synthetic-/, "")}.zip`,
      bytes,
    };
  };

  const talk: Tasks["talk"] = async (name) => {
    const { study } = await opened("for a report");
    progress("estimating");
    return talkFile(await resultsOf(study, smallCells), { name, machine });
  };

  const invent: Tasks["invent"] = ({ name, text }) => {
    progress("drawing");
    return bring(inventTables(readScenario(name, text)).map(bytesOf));
  };

  return { bring, invent, columns, check, settle, ask, read, takeAway, talk };
}

/** What was said, and an answer: one of the choices, or any other that can stand in its place. */
function saidWith(
  { said, proposal: { mapping } }: Pick<SheetOnDesk, "said" | "proposal">,
  { question: asked, answer: text }: { readonly question: string; readonly answer: string },
): Said {
  const question = mapping.undecided.find((each) => each.question === asked);
  if (question === undefined) return said;
  const taken = takeAnswer(question, { text: text.trim(), mapping });
  if ("expected" in taken)
    throw new BringError(`"${oneLine(text)}" is not a possible answer. ${taken.expected}`);
  return sayAnswer(said, { question, answer: taken.answer });
}

const bytesOf = ({
  path,
  content,
}: {
  readonly path: string;
  readonly content: string | Uint8Array;
}): NamedBytes => ({
  name: path,
  bytes: typeof content === "string" ? new TextEncoder().encode(content) : content,
});

/** A study file, and no mapping or scenario: it names data. */
function isStudyText({ bytes }: NamedBytes): boolean {
  const text = new TextDecoder().decode(bytes);
  return /^data:/m.test(text) && /^study:/m.test(text);
}
