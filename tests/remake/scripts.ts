import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const reference = "tests/reference";

/** What became of a script: null if it ran to its end, else its last words. */
export type Stopped = string | null;

/** One thread and one locale, so that sums come in one order and texts in one alphabet. */
const surroundings = { OPENBLAS_NUM_THREADS: "1", OMP_NUM_THREADS: "1", LC_ALL: "C.UTF-8" };

/** R and what it does linear algebra with, as "R 4.2.2 with libopenblasp-r0.3.21.so"; null where R is not installed. */
export function versionOfR(): string | null {
  const ask = 'cat("R ", as.character(getRversion()), " with ", basename(La_library()), sep = "")';
  const ran = spawnSync("Rscript", ["--vanilla", "-e", ask], { encoding: "utf8" });
  return ran.status === 0 ? ran.stdout.trim() : null;
}

/** Runs `work` on a copy of the scripts and the data in a temporary folder, so that nothing committed changes. */
export function onCopy<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-remake-"));
  try {
    for (const part of ["data", "r"]) cpSync(join(reference, part), join(folder, part), { recursive: true });
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export function runScript(script: string, folder: string): Stopped {
  const ran = spawnSync("Rscript", ["--vanilla", script], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, ...surroundings },
    maxBuffer: 1 << 26,
  });
  if (ran.status === 0) return null;
  const absent = /there is no package called .([\w.]+)./.exec(ran.stderr);
  return absent ? `R package ${absent[1]} is not installed` : ran.stderr.trim().slice(-600);
}

export const isAbsence = (stopped: string): boolean => stopped.endsWith("is not installed");

/** Folders of tests/reference/data that hold a script, by name. */
export const topicsWithScript = (): readonly string[] =>
  readdirSync(join(reference, "data"), { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(reference, "data", entry.name, "make.R")))
    .map(({ name }) => name)
    .sort();

export const committed = (...path: string[]): string => join(reference, "data", ...path);
