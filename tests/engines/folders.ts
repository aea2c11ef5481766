import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const command = "dist/command/main.js";
const data = "synthetic-data";

/** The commands whose folders are compared: reports, shared copies and deposits of committed cohorts, and cohorts made anew. */
const jobs = (key: string): Readonly<Record<string, readonly string[]>> => ({
  "report-one-clinic": ["report", `${data}/one-clinic/study.yaml`],
  "report-single-sheet": ["report", `${data}/one-clinic/study-single-sheet.yaml`],
  "report-registry": ["report", `${data}/registry/study.yaml`],
  "report-three-sites": ["report", `${data}/three-sites/study.yaml`],
  "share-three-sites": ["share", `${data}/three-sites/study.yaml`, "--rare", "generalise", "--key", key],
  "deposit-one-clinic": ["deposit", `${data}/one-clinic/study.yaml`, "--key", key],
  ...Object.fromEntries(
    ["one-clinic", "registry", "three-sites", "dirty-sheet"].map((cohort) => [
      `invent-${cohort}`,
      ["invent", `${data}/${cohort}/scenario.yaml`],
    ]),
  ),
});

/** Runs every command under an engine; each writes into a folder of its own below `into`. */
export function writeFolders(
  engine: string,
  { into, key }: { readonly into: string; readonly key: string },
): void {
  for (const [name, words] of Object.entries(jobs(key))) {
    const { status, stderr } = spawnSync(engine, [command, ...words, "--into", join(into, name)], {
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(`${engine} ${words.join(" ")} exits with ${status}:\n${stderr}`);
  }
}

/** Every file below a folder by its path. The line of a report's manifest that names the engine is left out. */
export function filesBelow(folder: string): ReadonlyMap<string, string> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  return new Map(
    entries.map(({ name, parentPath }) => {
      const path = join(parentPath, name);
      const bytes = readFileSync(path).toString("latin1");
      return [path.slice(folder.length + 1), name === "manifest.json" ? withoutEngine(bytes) : bytes];
    }),
  );
}

const withoutEngine = (manifest: string): string => manifest.replace(/^ {2}"engine": ".*",\n/m, "");
