import { lstat, readFile, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { Fingerprint } from "../../run/fingerprint.js";
import { type Manifest, manifestOfEngine, manifestSchema } from "../../run/manifest.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { buildReport } from "../build-report.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { kindOf } from "../kind-of.js";
import { fingerprintOf } from "../machine.js";
import { readInput } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { engineName, toolkitVersion } from "../version.js";
import { type OutputFile, walk } from "../writing/index.js";

export interface RecomputeOptions {
  readonly study?: string;
}

/** Computes a report folder again from its study file and says, file by file, what differs. */
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

async function manifestOf(folder: string): Promise<Manifest> {
  const bytes = await readInput(join(folder, "manifest.json"), {
    what: "manifest",
    by: "on the command line",
  });
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

/** What differs below the folder: everything in it is looked at, and only files of the right size are read. */
async function outputLines(folder: string, expected: ReadonlyMap<string, OutputFile>): Promise<string[]> {
  const lines: string[] = [];
  const seen = new Set<string>();
  for await (const { path, full, entry } of walk(folder)) {
    const wanted = expected.get(path);
    const isAbove = entry.isDirectory() && [...expected.keys()].some((each) => each.startsWith(`${path}/`));
    if (isAbove) continue;
    seen.add(path);
    if (wanted === undefined) lines.push(`${path} does not belong to the report`);
    else if (!entry.isFile()) lines.push(`${path} is ${kindOf(entry)}, not a file of the report`);
    else if (!(await hasContent(full, wanted))) lines.push(`${path} differs`);
  }
  const missing = [...expected.keys()].filter((path) => !seen.has(path));
  return [...lines.sort(), ...missing.sort().map((path) => `${path} is missing`)];
}

async function hasContent(path: string, { content }: OutputFile): Promise<boolean> {
  const wanted = fingerprintOf(path, content);
  if ((await lstat(path)).size !== wanted.bytes) return false;
  return fingerprintOf(path, await readFile(path)).sha256 === wanted.sha256;
}
