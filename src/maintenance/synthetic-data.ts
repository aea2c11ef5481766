import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  inventCohort,
  inventConsortium,
  inventDirtySheet,
  readScenario,
  type Scenario,
  type SyntheticFile,
} from "../synthetic/index.js";

const root = new URL("../../synthetic-data/", import.meta.url);

/** The committed folders: each is made from its own scenario.yaml, or one a site, which are written by hand. */
export const syntheticFolders = [
  "one-clinic",
  "registry",
  "three-sites",
  "dirty-sheet",
  "consortium",
] as const;
export type SyntheticFolder = (typeof syntheticFolders)[number];

/** The files of one folder of synthetic-data, made anew from its scenario.yaml; without that file itself. */
export function filesOf(folder: SyntheticFolder): readonly SyntheticFile[] {
  if (folder === "consortium")
    return inventConsortium(
      sitesOfConsortium.map((site) => ({ folder: site, scenario: scenarioIn(`${folder}/${site}`) })),
    );
  const scenario = scenarioIn(folder);
  const files = folder === "dirty-sheet" ? inventDirtySheet(scenario) : inventCohort(scenario);
  return files.filter((file) => file.path !== "scenario.yaml");
}

/** From the largest to the smallest. */
const sitesOfConsortium = [..."abcdefghijkl"].map((letter) => `site-${letter}`);

function scenarioIn(folder: string): Scenario {
  const path = `${folder}/scenario.yaml`;
  return readScenario(`synthetic-data/${path}`, readFileSync(new URL(path, root), "utf8"));
}

/** Paths within synthetic-data whose committed bytes differ from those made anew, or that are missing. */
export function outdatedFiles(folder: SyntheticFolder): readonly string[] {
  const paths = filesOf(folder).map((file) => ({ ...file, path: `${folder}/${file.path}` }));
  return paths
    .filter((file) => !committed(file.path)?.equals(Buffer.from(file.content)))
    .map(({ path }) => path);
}

function committed(path: string): Buffer | null {
  try {
    return readFileSync(new URL(path, root));
  } catch {
    return null;
  }
}

/** Writes the folders, or with `--check` says which files are not what their scenario gives. */
function main(words: readonly string[]): void {
  for (const folder of syntheticFolders) {
    if (words.includes("--check")) check(folder);
    else
      for (const { path, content } of filesOf(folder))
        writeFileSync(new URL(`${folder}/${path}`, root), content);
  }
}

function check(folder: SyntheticFolder): void {
  for (const path of outdatedFiles(folder)) {
    process.stderr.write(
      `synthetic-data/${path} differs from what its scenario.yaml gives.\n  Run: node dist/maintenance/synthetic-data.js\n`,
    );
    process.exitCode = 1;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main(process.argv.slice(2));
