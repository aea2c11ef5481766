import { dirname, join } from "node:path";
import { linkTables } from "../../cohort/index.js";
import {
  type AboutDeposit,
  type Adtte,
  adtteDefinitions,
  adtteOf,
  adtteResource,
  adtteText,
  csvOnTheWebOf,
  dataPackageOf,
  plainResource,
  type Resource,
  tableResource,
} from "../../exchange/index.js";
import { readCohort } from "../../ingest/index.js";
import type { SharedCohort, ShareSettings } from "../../privacy/index.js";
import { disclosureOf } from "../../run/sharing/shared-copy.js";
import { folderManifest, sharedPlan } from "../../run/sharing/shared-plan.js";
import { counted, csvText, jsonText, oneLine, type ReadCohort } from "../../schema/index.js";
import type { Plan } from "../../study/index.js";
import { questionOf } from "../../study/question-of.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import { pageMachine } from "../machine.js";
import { refuseSeveralSites } from "../one-site.js";
import { readmeText } from "../sharing/deposit-words.js";
import { openKey, withKey } from "../sharing/key-file.js";
import { openStudy, type StudyInput } from "../study-input.js";
import type { Terminal } from "../terminal.js";
import { type OutputFile, refuseFolder, writeFolder } from "../writing/index.js";
import { copyAsked, refuseWithoutRows, type ShareOptions, settingsOf } from "./share.js";

export interface DepositOptions
  extends Pick<ShareOptions, "into" | "key" | "rare" | "k" | "closingWindow" | "replace"> {
  readonly withDates?: boolean;
}

/** Writes the cleaned cohort under open standards: a data package with a time-to-event dataset and its definitions. */
export async function deposit(study: string, options: DepositOptions, terminal: Terminal): Promise<ExitCode> {
  const keyPath = options.key ?? join(dirname(study), "sharing.key");
  const writing = { replace: options.replace === true && ("deposit" as const), tell: terminal.say };
  await refuseFolder(options.into, { inputs: [study, keyPath], ...writing });
  const input = await openStudy(study, terminal);
  refuseSeveralSites(input.plan, "Each site deposits its own study.");
  refuseWithoutRows(input, study);
  const settings: ShareSettings = {
    ...settingsOf(options, input.plan),
    ...(options.withDates === true ? { dates: "as-they-are" } : {}),
  };
  const opened = await openKey(keyPath, { into: options.into, inputs: input.paths });
  const { copy, adtte } = await withKey(opened, async () => {
    terminal.progress("making the deposit");
    const made = copyAsked(input, { key: opened.key, settings });
    const { files, adtte: dataset } = await filesOf(made, { input, settings });
    await writeFolder(options.into, files, { inputs: [...input.paths, keyPath], ...writing });
    return { copy: made, adtte: dataset };
  });
  sayDone(copy, { adtte, input, options, keyPath, isNew: opened.isNew, terminal });
  return exitCodes.done;
}

async function filesOf(
  copy: SharedCohort,
  { input, settings }: { readonly input: StudyInput; readonly settings: ShareSettings },
): Promise<{ readonly files: readonly OutputFile[]; readonly adtte: Adtte }> {
  const plan = sharedPlan(input.plan, { copy, settings });
  const name = (file: string) => `${plan.synthetic ? "synthetic-" : ""}${file}`;
  const adtte = adtteOf(linkTables(readBack(copy, plan).tables), {
    question: questionOf(plan),
    study: input.plan.study,
  });
  const others = copy.tables.map(({ table }) => table);
  const resources: readonly Resource[] = [
    ...copy.tables.map(({ table, text, columns }) =>
      tableResource(table, { path: name(`${table}.csv`), text, columns, others }),
    ),
    adtteResource({ path: name("adtte.csv"), text: adtteText(adtte) }),
    plainResource({
      name: "adtte-variables",
      path: name("adtte-variables.csv"),
      title: "Definitions of the variables of the time-to-event dataset",
      text: adtteDefinitions(adtte),
    }),
    plainResource({
      name: "account",
      path: name("account.csv"),
      title: "What became of every row",
      text: accountText(input, { copy, adtte }),
    }),
  ];
  const about = aboutOf(plan, settings);
  const machine = await pageMachine();
  const { version, sha256 } = machine;
  const page = await disclosureOf(copy, { plan: input.plan, title: plan.title }, machine);
  const files: OutputFile[] = [
    { path: "README.md", content: readmeText({ about, resources, settings, version }) },
    { path: "datapackage.json", content: dataPackageOf(about, resources) },
    { path: "csv-metadata.json", content: csvOnTheWebOf(about, resources) },
    ...resources.map(({ path, text }) => ({ path, content: text })),
    { path: "disclosure.html", content: page },
    { path: "disclosure.json", content: jsonText(copy.disclosure) },
  ];
  const manifest = folderManifest(files, {
    kind: "deposit",
    version,
    synthetic: plan.synthetic,
    sha256,
  });
  return { files: [...files, manifest], adtte };
}

/** The tables of the copy as anybody reads them: what cannot be read back is not deposited. */
function readBack(copy: SharedCohort, plan: Plan): ReadCohort {
  const read = readCohort(
    copy.tables.map(({ table, text }) => ({
      table,
      file: `${table}.csv`,
      bytes: new TextEncoder().encode(text),
    })),
    {
      closedOn: plan.data.closed_on ?? null,
      thresholdMm: plan.distance.threshold_mm,
      calendar: plan.data.calendar ?? "common",
    },
  );
  const lost = read.accounts.find(({ setAside }) => setAside.length > 0);
  if (lost !== undefined) {
    throw new Error(
      `${counted(lost.setAside.length, "row", "rows")} of ${lost.table} cannot be read back from the copy.`,
    );
  }
  return read;
}

function aboutOf(plan: Plan, { dates, closingWindow }: ShareSettings): AboutDeposit {
  const invented = plan.synthetic ? "SYNTHETIC: invented data; nothing in it is about a real person. " : "";
  const dated =
    dates === "as-they-are"
      ? "The dates are the real ones."
      : `The dates are on a separate calendar for each person: only the number of days between them is meaningful. Each record ends on a randomly drawn day within the last ${closingWindow} days before the data were closed; contacts near that day are known to the week.`;
  return {
    name: plan.study,
    title: plan.title,
    description: `${invented}Climbers' finger pulley injuries, their treatment and the return to climbing. Ids are replaced by keyed names, ages are given in bands, free text is left out. ${dated}`,
    keywords: [
      ...(plan.synthetic ? ["synthetic"] : []),
      "finger pulley injury",
      "climbing",
      "return to sport",
      "time to event",
    ],
  };
}

/** Rows read, used and set aside by file; rows in the deposit by table; injuries, records and left out by parameter. */
function accountText(
  { read }: StudyInput,
  { copy, adtte }: { readonly copy: SharedCohort; readonly adtte: Adtte },
): string {
  const reasons = new Map<string, number>();
  for (const { parameter, reason } of adtte.leftOut) {
    const key = `${parameter}\n${reason}`;
    reasons.set(key, (reasons.get(key) ?? 0) + 1);
  }
  return csvText(
    ["part", "what", "in", "out", "left_out", "reason"],
    [
      ...read.accounts.map(({ table, read: rows, used, setAside }) => [
        "reading",
        table,
        rows,
        used,
        setAside.length,
        setAside.length === 0 ? null : "set aside at the site until a query is answered",
      ]),
      ...copy.disclosure.rows.map(({ table, used, in_copy }) => [
        "deposit",
        table,
        used,
        in_copy,
        used - in_copy,
        used === in_copy
          ? null
          : "after the last day of the record, or left out so that nobody can be singled out",
      ]),
      ...adtte.account.map(({ parameter, injuries, records, left_out }) => [
        "ADTTE",
        parameter,
        injuries,
        records,
        left_out,
        null,
      ]),
      ...[...reasons].map(([key, n]) => {
        const [parameter = "", reason = ""] = key.split("\n");
        return ["ADTTE left out", parameter, null, null, n, reason];
      }),
    ],
  );
}

function sayDone(
  copy: SharedCohort,
  {
    adtte,
    input,
    options,
    keyPath,
    isNew,
    terminal,
  }: {
    readonly adtte: Adtte;
    readonly input: StudyInput;
    readonly options: DepositOptions;
    readonly keyPath: string;
    readonly isNew: boolean;
    readonly terminal: Terminal;
  },
): void {
  const { rare_rows, k } = copy.disclosure.combinations;
  terminal.say(
    [
      `A deposit under open standards: ${options.into}${input.plan.synthetic ? " (SYNTHETIC data)" : ""}`,
      ...input.read.accounts.map(
        ({ file, read, used, setAside }) =>
          `  ${oneLine(file)}: ${counted(read, "row", "rows")} read, ${used} used, ${setAside.length} set aside and not in the deposit`,
      ),
      ...adtte.account.map(
        ({ parameter, injuries, records, left_out }) =>
          `  ADTTE ${parameter}: ${counted(injuries, "injury", "injuries")} = ${counted(records, "record", "records")} + ${left_out} left out (reasons: account.csv)`,
      ),
      options.withDates === true
        ? "  It contains the real dates, as requested (--with-dates)."
        : `  The dates are on a separate calendar for each person. Each record ends on a randomly drawn day within ${copy.disclosure.injury_days.window} days before the closing date.`,
      `  ${counted(rare_rows.length, "injury has", "injuries have")} a combination of values that fewer than ${k} people share.`,
      "",
      `What it contains: ${join(options.into, "README.md")}, ${join(options.into, "datapackage.json")}`,
      `Read this before it leaves the site: ${join(options.into, "disclosure.html")}`,
      isNew
        ? `A new key, readable by you alone: ${keyPath}. Keep it at the site.`
        : `The keyed names were made with the key ${keyPath}.`,
      "Law, consent, ethics approval and the rules of your site decide whether it may leave the site.",
    ].join("\n"),
  );
}
