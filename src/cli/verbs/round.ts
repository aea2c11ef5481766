import { readFile as readFileOf, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import {
  type AnswerFile,
  answerPoint,
  type FitFile,
  type FitKind,
  firstPoint,
  type PointFile,
  proposePoint,
  type RoundFile,
  readRoundFile,
  sealedText,
} from "../../pooling/rounds/index.js";
import { counted, oneLine } from "../../schema/index.js";
import { largestSettings } from "../../schema/settings/parse-yaml.js";
import { readPlan } from "../../study/read-plan.js";
import { answerInWords, fitInWords, pointInWords } from "../../words/pooling/rounds.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { sha256 } from "../machine.js";
import { readInput, readSettingsFile } from "../read-input.js";
import { openStudy } from "../study-input.js";
import type { Terminal } from "../terminal.js";
import { refuseFile, writeNewFile } from "../writing/index.js";

export interface RoundOptions {
  readonly files: readonly string[];
  readonly into?: string;
  readonly site?: string;
  readonly model: FitKind["fit"];
  readonly ties: "efron" | "breslow";
  readonly law: Extract<FitKind, { fit: "accelerated" }>["law"];
  readonly smallestCell: number;
  readonly replace?: boolean;
}

/** What is written, how its file is called by default, and what is said of it. */
interface Outcome {
  readonly content: PointFile | AnswerFile | FitFile;
  readonly name: string;
  readonly said: string;
  readonly inputs: readonly string[];
}

/** Larger than the answer of a fit with as many parameters as a fit may have. */
const largestRound = 50_000_000;

const isStudy = (path: string): boolean => /\.ya?ml$/i.test(path);

/** Begins a fit, answers a point, or goes on from the answers: whichever the files are for. */
export async function round(from: string, options: RoundOptions, terminal: Terminal): Promise<ExitCode> {
  const { content, name, said, inputs } = !isStudy(from)
    ? await goneOn(from, options)
    : options.files.length === 0
      ? await begun(from, options, terminal)
      : await answered(from, options, terminal);
  const path = options.into ?? join(dirname(from), name);
  const writing = {
    inputs,
    elsewhere: options.replace
      ? "Choose another name with --into"
      : "Choose another name with --into, or add --replace",
    mayReplace: options.replace === true ? isRound : null,
  };
  const text = sealedText(content);
  // the same files give the same bytes: whoever takes a round up again finds it as it was
  const isThere = await isAlready(path, text);
  if (!isThere) {
    await refuseFile(path, writing);
    await writeNewFile(path, text, writing);
  }
  terminal.say(`${said}\n  ${isThere ? "Already there, unchanged, as" : "Written to"} ${path}`);
  return exitCodes.done;
}

const isAlready = async (path: string, text: string): Promise<boolean> =>
  (await stat(path).catch(() => null))?.size === Buffer.byteLength(text) &&
  (await readFileOf(path, "utf8")) === text;

const isRound = (text: string): boolean => text.slice(0, 2_000).includes('"pulley-outcomes round 1"');

async function begun(from: string, options: RoundOptions, terminal: Terminal): Promise<Outcome> {
  const name = oneLine(from.split(/[\\/]/).at(-1)!);
  const { text } = await readSettingsFile(from, {
    name,
    what: "study file",
    by: "on the command line",
    notice: terminal.notice,
  });
  const { model, ties, law, smallestCell } = options;
  const kind: FitKind = model === "hazards" ? { fit: model, ties } : { fit: model, law };
  const content = firstPoint(readPlan(name, text), { kind, smallestCell, sha256 });
  return { content, name: "round-0.json", said: pointInWords(content), inputs: [from] };
}

async function answered(from: string, options: RoundOptions, terminal: Terminal): Promise<Outcome> {
  const [file, ...more] = options.files;
  if (more.length > 0)
    throw new CommandError(
      exitCodes.usage,
      `A site answers one point at a time; ${counted(options.files.length, "file is", "files are")} named after the study file.\n  pulley-outcomes round ${from} ${file}`,
    );
  const point = await readFile(file!);
  if (point.kind !== "point")
    throw new CommandError(
      exitCodes.input,
      `"${file}" is the answer of a site, not a point to answer.\n  Name the point file that the coordinator sent.`,
    );
  const input = await openStudy(from, terminal);
  const { tables } = input.read;
  const asked = input.plan.who.sites;
  const site =
    options.site ??
    siteOf(
      tables.injuries
        .map(({ values }) => values.site_id)
        .filter((name) => asked === undefined || (name !== null && asked.includes(name))),
    );
  terminal.progress("summing over the rows");
  const { plan } = input;
  const content = answerPoint(point, { site, tables, plan, smallestCell: options.smallestCell }, sha256);
  return {
    content,
    name: `answer-${content.round}-${site.replaceAll(/[^\p{L}\p{N}-]+/gu, "-")}.json`,
    said: answerInWords(content, point.content),
    inputs: [...input.paths, file!],
  };
}

/** The one site of the injuries. */
function siteOf(names: readonly (string | null)[]): string {
  const sites = [...new Set(names)];
  if (sites.length === 1 && sites[0] !== null && sites[0] !== undefined) return sites[0];
  throw new CommandError(
    exitCodes.usage,
    sites.length > 1
      ? `The tables contain injuries of ${counted(sites.length, "site", "sites")}, and an answer is of one.\n  Let the study file name one (who: { sites: [...] }), or name all of them as one with --site.`
      : "The tables do not say which site this is.\n  Name it with --site, in the same way in every round.",
  );
}

async function goneOn(from: string, options: RoundOptions): Promise<Outcome> {
  const point = await readFile(from);
  if (point.kind !== "point")
    throw new CommandError(
      exitCodes.input,
      `"${from}" is the answer of a site.\n  Name the point file first, and the answers of all sites after it.`,
    );
  const answers = [];
  for (const file of options.files) {
    const answer = await readFile(file);
    if (answer.kind !== "answer")
      throw new CommandError(
        exitCodes.input,
        `"${file}" is a point, not the answer of a site.\n  Name one point file first, and the answers of all sites after it.`,
      );
    answers.push(answer);
  }
  const content = proposePoint(point, answers, sha256);
  return {
    content,
    name: content.kind === "fit" ? "fit.json" : `round-${content.round}.json`,
    said: content.kind === "fit" ? fitInWords(content) : pointInWords(content),
    inputs: [from, ...options.files],
  };
}

async function readFile(path: string): Promise<RoundFile> {
  const bytes = await readInput(path, {
    what: "file of a round",
    by: "on the command line",
    atMost: Math.max(largestRound, largestSettings),
  });
  return readRoundFile({ file: path, text: new TextDecoder().decode(bytes) }, sha256);
}
