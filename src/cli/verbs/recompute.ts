import { readdir, readFile, stat } from "node:fs/promises";
import { dirname, join, relative, resolve } from "node:path";
import { oneLine } from "../../schema/hidden-characters.js";
import { buildReport } from "../build-report.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import {
  type Fingerprint,
  fingerprintOf,
  type Manifest,
  manifestOfEngine,
  manifestSchema,
} from "../manifest.js";
import { readInput } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { engineName, toolkitVersion } from "../version.js";
import type { OutputFile } from "../writing/index.js";

export interface RecomputeOptions {
  readonly study?: string;
}

/** Computes a report folder anew from its study file and says, file by file, what differs. */
export async function recompute(
  folder: string,
  options: RecomputeOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const manifest = await manifestOf(folder);
  const study = options.study ?? (await studyBeside(folder, manifest));
  const built = await buildReport(
    study,
    { ...manifest.small_cells, studyName: manifest.study_file.name },
    terminal,
  );
  const present = await filesBelow(folder);
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
      : ["the study file says something else than when the report was made"]),
    ...inputLines(manifest.inputs, built.inputs),
    ...(await outputLines(folder, present, expected)),
  ];
  if (lines.length === 0) {
    terminal.say(
      [
        `${folder}: recomputed from ${study}; all ${present.length} files are the same, byte for byte.`,
        ...enginesApart(manifest).map((words) => `  It was ${words}.`),
      ].join("\n"),
    );
    return exitCodes.done;
  }
  terminal.say(
    [
      `${folder}: recomputed from ${study}; what differs:`,
      ...lines.map((line) => `  ${oneLine(line)}`),
      ...enginesApart(manifest).map(
        (words) => `  The report was ${words}. That can be the cause where only last digits differ.`,
      ),
    ].join("\n"),
  );
  return exitCodes.found;
}

async function manifestOf(folder: string): Promise<Manifest> {
  const bytes = await readInput(join(folder, "manifest.json"), { what: "manifest", by: "the command line" });
  try {
    return manifestSchema.parse(JSON.parse(new TextDecoder().decode(bytes)));
  } catch {
    throw new CommandError(
      exitCodes.input,
      `"${join(folder, "manifest.json")}" is not a manifest of this toolkit.\n  Name a folder that "pulley-outcomes report" has written.`,
    );
  }
}

async function studyBeside(folder: string, { study_file }: Manifest): Promise<string> {
  const study = join(dirname(resolve(folder)), study_file.name);
  const isThere = await stat(study).then(
    (found) => found.isFile(),
    () => false,
  );
  if (isThere) return study;
  throw new CommandError(
    exitCodes.input,
    `the study file "${oneLine(study_file.name)}" is not beside the folder "${folder}".\n  Say where it lies: pulley-outcomes recompute ${folder} --study ${oneLine(study_file.name)}`,
  );
}

/** With what the report was made and recomputed, where it is not the same; no difference of its own. */
const enginesApart = ({ engine }: Manifest): string[] =>
  engine === engineName() ? [] : [`made with ${engine} and recomputed with ${engineName()}`];

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

async function outputLines(
  folder: string,
  present: readonly string[],
  expected: ReadonlyMap<string, OutputFile>,
): Promise<string[]> {
  const lines: string[] = [];
  for (const path of present) {
    const wanted = expected.get(path);
    if (wanted === undefined) lines.push(`${path} does not belong to the report`);
    else if (
      fingerprintOf(path, wanted.content).sha256 !==
      fingerprintOf(path, await readFile(join(folder, path))).sha256
    ) {
      lines.push(`${path} differs`);
    }
  }
  const missing = [...expected.keys()].filter((path) => !present.includes(path)).sort();
  return [...lines, ...missing.map((path) => `${path} is missing`)];
}

/** Every file below a folder, paths with forward slashes, in order. */
async function filesBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll("\\", "/"))
    .sort();
}
