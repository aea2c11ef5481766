import { type KeptCohort, keptCohort } from "../../cohort/index.js";
import { resultsOf, type SmallCells } from "../../run/build-report.js";
import type { Listener, Machine } from "../../run/machine.js";
import { openTables, type StudyInput, studyInputOf, tablesAsked } from "../../run/open-study.js";
import type { OpenedTables } from "../../run/study-folder.js";
import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { usualSmallestCell } from "../../study/small-cells/index.js";
import { studyName } from "./study-draft.js";

/** The workbench shows every count to the site that brought it. */
export const smallCells: SmallCells = { choice: "written", smallest: usualSmallestCell };

interface KeptFor extends Pick<Listener, "progress"> {
  /** A file of the study by its name. */
  readonly open: (file: string) => Uint8Array;
  readonly machine: Machine;
}

interface TablesKept {
  readonly by: string;
  readonly notices: readonly string[];
  readonly opened: OpenedTables;
  readonly cohort: KeptCohort;
}

interface OpenedStudy {
  readonly input: StudyInput;
  /** The tables as linked, with the records of the last question. */
  readonly cohort: KeptCohort;
  /** What a person should know besides. */
  readonly notices: readonly string[];
}

/**
 * A study with its tables as read and its results, kept until something that they rest on changes: tables are read once more
 * only where a file or what they are read by has changed, and results computed only where the question has.
 */
export function studyKept({ open, machine, progress }: KeptFor) {
  const { sha256 } = machine;
  let tables: TablesKept | null = null;
  let last: { studyText: string; results: Results } | null = null;
  const folder = {
    name: studyName,
    shownNames: () => (file: string) => file,
    open: (file: string) => Promise.resolve(open(file)),
  };

  const opened = async (plan: Plan): Promise<OpenedStudy> => {
    const by = JSON.stringify(tablesAsked(plan));
    if (tables?.by !== by) {
      const notices: string[] = [];
      const opener = { progress, notice: (text: string) => notices.push(text), sha256 };
      const read = await openTables({ folder, plan }, opener, { purpose: "for the site" });
      tables = { by, notices, opened: read, cohort: keptCohort(read.read.tables) };
      last = null;
    }
    const input = studyInputOf({ folder, plan }, { tables: tables.opened, sha256 });
    return { input, notices: tables.notices, cohort: tables.cohort };
  };

  const answered = async (plan: Plan): Promise<{ input: StudyInput; results: Results }> => {
    const { input, cohort } = await opened(plan);
    if (last?.studyText !== input.studyText) {
      progress("estimating");
      last = { studyText: input.studyText, results: await resultsOf({ ...input, cohort }, smallCells) };
    }
    return { input, results: last.results };
  };

  /** Called whenever a file of the study changes. */
  const forget = (): void => {
    [tables, last] = [null, null];
  };

  return { opened, answered, forget };
}
