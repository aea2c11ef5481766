import type { Proposal } from "../../ingest/mapping/index.js";
import { mappingText, nothingSaid, type Said, sayColumn } from "../../ingest/mapping/index.js";
import { sitesNamed } from "../../pooling/summary/read-of-site.js";
import type { SecretKey } from "../../privacy/index.js";
import { buildReport } from "../../run/build-report.js";
import { plainStudyText } from "../../run/plain-study.js";
import { filesOf } from "../../run/study-files.js";
import { labelOf, tableNames } from "../../schema/index.js";
import type { Plan } from "../../study/plan.js";
import { readPlan } from "../../study/read-plan.js";
import { inventTables, readScenario } from "../../synthetic/index.js";
import { archiveOf } from "../../workbook/archive.js";
import { BringError, isStudyFile, isStudyText, type SheetOfFile, sheetOf, tableOfColumns } from "./bring.js";
import { columnsView, proposalFor } from "./columns.js";
import { copyWithKey, type DeskMachine, keyFile, keyIn } from "./copy.js";
import { namedBytesOf } from "./named-bytes.js";
import { contributionView } from "./pooling/contribution-view.js";
import { poolingTasks } from "./pooling/pooling-desk.js";
import { checkView, holdsAnswers, withAnswer } from "./queries.js";
import { readView, sectionsView } from "./reading.js";
import { withStudyOfRecord } from "./record/open-record.js";
import { recordTasks } from "./record/record-desk.js";
import { saidWith } from "./said-with.js";
import {
  askView,
  firstQuestion,
  newPlan,
  studyName,
  withAgreedQuestion,
  withChoices,
} from "./study-draft.js";
import { smallCells, studyKept } from "./study-kept.js";
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

/** Of more injuries an answer takes so long that whoever changes the question meanwhile would have to wait for it. */
const mostPrepared = 2_000;

/**
 * The desk of the workbench: it holds the very files that the command line would read (data, mapping, answers, study file),
 * each step of the page changes one of them, and every answer is that of a run on these files.
 *
 * @param machine what a run needs of the page
 * @param progress told what is being done
 */
export function deskOn(machine: DeskMachine, progress: (step: string) => void): Tasks {
  const files = new Map<string, Uint8Array>();
  let plan: Plan | null = null;
  let sheet: SheetOnDesk | null = null;
  let list = "";
  /** The key of the copies of this site: the one that was brought, else one drawn when it is first needed. */
  let key: SecretKey | null = null;
  /** Whether the question is still the one that the desk began with. */
  let isOwnQuestion = false;
  const planned = (): Plan => {
    if (plan === null) throw new BringError("There are no data yet.\n  Bring a file first.");
    return plan;
  };

  const fileNamed = (name: string): Uint8Array => {
    const bytes = files.get(name) ?? files.get(name.split("/").at(-1)!);
    if (bytes === undefined)
      throw new BringError(
        `The study names the file "${name}", which was not brought.\n  Bring it together with the study file.`,
      );
    return bytes;
  };

  const study = studyKept({ open: fileNamed, machine, progress });

  const bring = async (given: readonly NamedBytes[]): Promise<Brought> => {
    const keyBrought = given.find(({ name }) => name === keyFile);
    key = keyBrought === undefined ? null : keyIn(keyBrought);
    const brought = await withStudyOfRecord(given.filter((file) => file !== keyBrought));
    files.clear();
    study.forget();
    [plan, sheet, list] = [null, null, ""];
    isOwnQuestion = !given.some(isStudyFile);
    for (const { name, bytes } of brought) files.set(name, bytes);
    const studies = brought.filter((file) => isStudyFile(file) && isStudyText(file));
    if (studies.length > 1)
      throw new BringError(
        `${studies.map(({ name }) => name).join(", ")}: two study files.\n  Bring one of them.`,
      );
    const [file] = studies;
    return file === undefined ? withoutStudy(brought) : withStudy(file);
  };

  const withStudy = ({ name: own, bytes }: NamedBytes): Brought => {
    const read = readPlan(own, new TextDecoder().decode(bytes));
    if (read.data.from_sites !== undefined)
      throw new BringError(
        `${own}: this study is of several sites, each in a folder of its own, which a page cannot open.\n  Make its report on the command line, or bring the study of one site.`,
      );
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
    study.forget();
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
    const { input, notices } = await study.opened(planned());
    list = input.forSite!.csv;
    return checkView(input.forSite!, {
      notices,
      dateOrder: sheet === null ? input.plan.data.date_order : null,
    });
  };

  const settle: Tasks["settle"] = async (given) => {
    const answered = withAnswer(list, given);
    const { answers: _before, ...data } = planned().data;
    study.forget();
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
    const { cohort } = await study.opened(plan);
    const asked = askView(plan, cohort);
    if (!isOwnQuestion || asked.injuries === 0) return asked;
    // nobody has asked anything yet: a question about groups that do not occur is no beginning
    isOwnQuestion = false;
    plan = withChoices(plan, firstQuestion(asked));
    return askView(plan, cohort);
  };

  const agree: Tasks["agree"] = async (file) => {
    plan = withAgreedQuestion(planned(), file);
    isOwnQuestion = false;
    return ask({});
  };

  const prepare: Tasks["prepare"] = async () => {
    // a first question can still change with the answers to queries
    if (plan === null || isOwnQuestion) return;
    const { input } = await study.opened(plan);
    if (input.read.tables.injuries.length <= mostPrepared) await study.answered(plan);
  };

  const read: Tasks["read"] = async () => {
    const { input, results } = await study.answered(planned());
    return readView(results, sitesNamed(input.read));
  };

  const sections: Tasks["sections"] = async () => {
    const { results } = await study.answered(planned());
    progress("drawing figures");
    return sectionsView(results, machine.version);
  };

  const takeAway: Tasks["takeAway"] = async () => {
    const { input, results } = await study.answered(planned());
    const built = await buildReport(input, { ...smallCells, results }, { ...machine, progress });
    progress("packing");
    const own = filesOf(planned()).map((name) => ({ path: name, content: fileNamed(name) }));
    const report = built.files.map(({ path, content }) => ({ path: `report/${path}`, content }));
    progress("making the copy to share");
    key ??= machine.newKey();
    const copy = await copyWithKey(input, { key, machine });
    const copied = "notice" in copy ? [] : copy;
    const bytes = archiveOf([
      { path: studyName, content: plainStudyText(planned()) },
      ...own,
      ...report,
      ...copied,
    ]);
    const name = `${planned().synthetic ? "synthetic-" : ""}${planned().study.replace(/^synthetic-/, "")}.zip`;
    return { name, bytes, notice: "notice" in copy ? copy.notice : null };
  };

  const talk: Tasks["talk"] = async (name) =>
    talkFile((await study.answered(planned())).results, { name, machine });

  const contribute: Tasks["contribute"] = async (site) => {
    const { input } = await study.opened(planned());
    progress("estimating");
    return contributionView(input, { site, machine });
  };

  const invent: Tasks["invent"] = ({ name, text }) => {
    progress("drawing");
    return bring(inventTables(readScenario(name, text)).map(namedBytesOf));
  };

  return {
    ...recordTasks,
    ...poolingTasks(machine, progress),
    bring,
    invent,
    columns,
    check,
    settle,
    ask,
    agree,
    prepare,
    read,
    sections,
    takeAway,
    talk,
    contribute,
  };
}
