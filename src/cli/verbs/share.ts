import { dirname, join } from "node:path";
import {
  closingWindows,
  defaultSettings,
  type SharedCohort,
  type ShareSettings,
  shiftRanges,
} from "../../privacy/index.js";
import { copyFiles, copyOf, settingsFor } from "../../run/sharing/shared-copy.js";
import { counted } from "../../schema/counted.js";
import { oneLine } from "../../schema/index.js";
import type { Plan } from "../../study/index.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { pageMachine } from "../machine.js";
import { refuseSeveralSites } from "../one-site.js";
import { openKey, withKey } from "../sharing/key-file.js";
import { openStudy, type StudyInput } from "../study-input.js";
import type { Terminal } from "../terminal.js";
import { within } from "../within.js";
import { refuseFolder, writeFolder } from "../writing/index.js";

export interface ShareOptions {
  readonly into: string;
  readonly key?: string;
  readonly dates?: "offsets" | "shifted";
  readonly shiftDays?: number;
  readonly closingWindow?: number;
  readonly ageBand?: number;
  readonly oldest?: number;
  readonly body?: ShareSettings["body"];
  readonly k?: number;
  readonly fields?: readonly string[];
  readonly rare?: ShareSettings["rare"];
  readonly keepOrder?: boolean;
  readonly replace?: boolean;
}

/** Writes a copy of a study that may leave the site, with its study file and a report on what it discloses. */
export async function share(study: string, options: ShareOptions, terminal: Terminal): Promise<ExitCode> {
  const keyPath = options.key ?? join(dirname(study), "sharing.key");
  const writing = { replace: options.replace === true && ("shared copy" as const), tell: terminal.say };
  await refuseFolder(options.into, { inputs: [study, keyPath], ...writing });
  const input = await openStudy(study, terminal);
  refuseSeveralSites(
    input.plan,
    "Each site shares a copy of its own study; the copies are then named here as folders.",
  );
  refuseWithoutRows(input, study);
  const settings = settingsOf(options, input.plan);
  const opened = await openKey(keyPath, { into: options.into, inputs: input.paths });
  const copy = await withKey(opened, async () => {
    terminal.progress("making the copy");
    const made = copyAsked(input, { key: opened.key, settings });
    const files = await copyFiles(made, { plan: input.plan, settings }, await pageMachine());
    await writeFolder(options.into, files, { inputs: [...input.paths, keyPath], ...writing });
    return made;
  });
  sayDone(copy, { input, options, keyPath, isNew: opened.isNew, terminal });
  return exitCodes.done;
}

/** @throws CommandError when every injury is set aside: there is nothing to share */
export function refuseWithoutRows({ read }: Pick<StudyInput, "read">, study: string): void {
  if (read.tables.injuries.length > 0) return;
  throw new CommandError(
    exitCodes.input,
    `No injury can be used, so there is nothing to copy.\n  The reasons are listed by: pulley-outcomes check ${study}`,
  );
}

/** Settings from the command line and what the study says. */
export function settingsOf(options: Omit<ShareOptions, "into">, plan: Plan): ShareSettings {
  const { fields, k, ageBand, oldest, shiftDays, closingWindow } = options;
  return {
    ...settingsFor(plan),
    dates: options.dates ?? defaultSettings.dates,
    shiftDays: oneOf("--shift-days", shiftDays ?? defaultSettings.shiftDays, shiftRanges),
    closingWindow: oneOf("--closing-window", closingWindow ?? defaultSettings.closingWindow, closingWindows),
    bandYears: within("--age-band", ageBand ?? defaultSettings.bandYears, { from: 1, to: 40 }),
    oldest: within("--oldest", oldest ?? defaultSettings.oldest, { from: 30, to: 90 }),
    body: options.body ?? defaultSettings.body,
    k: within("-k", k ?? defaultSettings.k, { from: 2, to: 100 }),
    fields: fields ?? null,
    rare: options.rare ?? defaultSettings.rare,
    order: options.keepOrder === true ? "as-it-was" : "by-name",
  };
}

function oneOf<N extends number>(option: string, value: number, allowed: readonly N[]): N {
  const found = allowed.find((each) => each === value);
  if (found !== undefined) return found;
  throw new CommandError(
    exitCodes.usage,
    `${option} ${value} cannot be used.\n  Write one of ${allowed.join(", ")}. Only these are allowed, so that several copies disclose no more than one.`,
  );
}

/** The copy; a column that cannot be counted is a matter of the command line. */
export function copyAsked(...asked: Parameters<typeof copyOf>): SharedCohort {
  try {
    return copyOf(...asked);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new CommandError(exitCodes.usage, `--fields: ${error.message}`);
  }
}

function sayDone(
  { disclosure }: SharedCohort,
  {
    input,
    options,
    keyPath,
    isNew,
    terminal,
  }: {
    readonly input: StudyInput;
    readonly options: ShareOptions;
    readonly keyPath: string;
    readonly isNew: boolean;
    readonly terminal: Terminal;
  },
): void {
  const { rare_rows, k } = disclosure.combinations;
  const { fewest, window, people_in_reach_of_close, injuries_after_their_record } = disclosure.injury_days;
  const injuries = disclosure.rows.find(({ table }) => table === "injuries")?.in_copy ?? 0;
  const marked = input.plan.synthetic ? " (SYNTHETIC data)" : "";
  terminal.say(
    [
      `A de-identified copy: ${options.into}${marked}`,
      ...input.read.accounts.map(
        ({ file, read, used, setAside }) =>
          `  ${oneLine(file)}: ${counted(read, "row", "rows")} read, ${used} used for the copy, ${setAside.length} set aside and not in the copy`,
      ),
      ...disclosure.rows.map(
        ({ table, in_copy }) => `  ${table}: ${counted(in_copy, "row", "rows")} in the copy`,
      ),
      `  Each record ends on a randomly drawn day within ${window} days before the closing date: ${counted(people_in_reach_of_close, "person was", "people were")} followed until then, and ${counted(injuries_after_their_record, "injury that occurred later is", "injuries that occurred later are")} not in the copy.`,
      `  For somebody who knows the closing date and the clinic days of the site, at least ${counted(fewest ?? 0, "day remains", "days remain")} possible for an injury.`,
      rare_rows.length === 0
        ? `  Every combination of values that was counted is shared by at least ${k} people. That is no guarantee.`
        : `  ${rare_rows.length} of ${counted(injuries, "injury", "injuries")} ${rare_rows.length === 1 ? "has" : "have"} a combination of values that fewer than ${k} people share: a person could be singled out.`,
      ...(rare_rows.length > 0 && disclosure.settings.rare === "list"
        ? [
            "  To reduce their number: --rare generalise (whole columns made coarser) or --rare suppress (single cells left out)",
          ]
        : []),
      "",
      `Read this before it leaves the site: ${join(options.into, "disclosure.html")}`,
      isNew
        ? `A new key, readable by you alone: ${keyPath}. Keep it at the site: the next copy made with it has the same names.`
        : `The keyed names were made with the key ${keyPath}, as in earlier copies.`,
      `Write a report on the copy: pulley-outcomes report ${join(options.into, "study.yaml")}`,
      "Law, consent, ethics approval and the rules of your site decide whether it may leave the site.",
    ].join("\n"),
  );
}
