import { stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { Fingerprint } from "../../run/fingerprint.js";
import { listingOf, type Manifest, manifestOfEngine, manifestSchema } from "../../run/manifest.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { buildReport } from "../build-report.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { outputLines } from "../output-lines.js";
import { readInput } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { engineName, toolkitVersion } from "../version.js";
import { recomputePooled } from "./recompute-pooled.js";

export interface RecomputeOptions {
  readonly study?: string;
}

/** Computes a report folder again from its study file and says, file by file, what differs. */
export async function recompute(
  folder: string,
  options: RecomputeOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const text = await manifestTextOf(folder);
  if (listingOf(text)?.kind === "pooled report") return recomputePooled({ folder, text }, options, terminal);
  const manifest = manifestOf(folder, text);
  const study = options.study ?? (await studyBeside(folder, manifest));
  const built = await buildReport(
    study,
    { ...manifest.small_cells, studyName: manifest.study_file.name },
    terminal,
  );
  const expected = new Map(
    built.files.map((file) => [
      file.path,
      file.path === "manifest.json" ? manifestOfEngine(file, manifest.engine) : file,
    ]),
  );
  const lines = [
    ...versionLines(manifest),
    ...(manifest.study_file.sha256 === built.studyFile.sha256
      ? []
      : ["the study file has changed since the report was made"]),
    ...inputLines(manifest.inputs, built.inputs),
    ...(await outputLines(folder, expected)),
  ];
  if (lines.length === 0) {
    terminal.say(
      [
        `${folder}: recomputed from ${study}. All ${expected.size} files are the same, byte for byte.`,
        ...enginesApart(manifest).map((words) => `  The report was ${words}.`),
      ].join("\n"),
    );
    return exitCodes.done;
  }
  terminal.say(
    [
      `${folder}: recomputed from ${study}. These differ:`,
      ...lines.map((line) => `  ${oneLine(line)}`),
      ...enginesApart(manifest).map(
        (words) => `  The report was ${words}. This can be the cause if only the last digits differ.`,
      ),
    ].join("\n"),
  );
  return exitCodes.found;
}

async function manifestTextOf(folder: string): Promise<string> {
  const path = join(folder, "manifest.json");
  return new TextDecoder().decode(await readInput(path, { what: "manifest", by: "on the command line" }));
}

function manifestOf(folder: string, text: string): Manifest {
  try {
    return manifestSchema.parse(JSON.parse(text));
  } catch {
    throw new CommandError(
      exitCodes.input,
      `"${join(folder, "manifest.json")}" is not a manifest of this toolkit.\n  Name a folder that "pulley-outcomes report" or "pulley-outcomes pool" has written.`,
    );
  }
}

async function studyBeside(folder: string, { study_file }: Manifest): Promise<string> {
  const study = join(dirname(resolve(folder)), study_file.name);
  // a manifest from elsewhere must not have any other file read
  const isBeside = basename(study_file.name) === study_file.name;
  const isThere = await stat(study).then(
    (found) => found.isFile(),
    () => false,
  );
  if (isBeside && isThere) return study;
  throw new CommandError(
    exitCodes.input,
    `The study file "${oneLine(study_file.name)}" is not beside the folder "${folder}".\n  Name it with --study: pulley-outcomes recompute ${folder} --study ${isBeside ? oneLine(study_file.name) : "study.yaml"}`,
  );
}

/** With what the report was made and recomputed, where it is not the same; no difference of its own. */
const enginesApart = ({ engine }: Manifest): string[] =>
  engine === engineName() ? [] : [`made with ${oneLine(engine)} and recomputed with ${engineName()}`];

const versionLines = ({ toolkit_version }: Manifest): string[] =>
  toolkit_version === toolkitVersion()
    ? []
    : [`made by version ${toolkit_version} of the toolkit, recomputed by ${toolkitVersion()}`];

function inputLines(then: readonly Fingerprint[], now: readonly Fingerprint[]): string[] {
  const before = new Map(then.map((print) => [print.name, print.sha256]));
  const changed = now.filter(({ name, sha256 }) => before.has(name) && before.get(name) !== sha256);
  const added = now.filter(({ name }) => !before.has(name));
  const gone = then.filter(({ name }) => !now.some((print) => print.name === name));
  return [
    ...changed.map(({ name }) => `input ${name} has changed since the report was made`),
    ...added.map(({ name }) => `input ${name} was not part of the report`),
    ...gone.map(({ name }) => `input ${name} is no longer part of the study`),
  ];
}
