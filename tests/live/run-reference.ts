import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { DataSet } from "./draw-sets.js";

/** The reference's figures of one data set by one method; `stopped` where it gave none, in its own words. */
export interface Answer {
  readonly figures: Map<string, number | null>;
  stopped: string | null;
}

/** By number of the set, then by method. */
export type Answers = ReadonlyMap<number, ReadonlyMap<string, Answer>>;

/** What the reference is, as "R 4.2.2, survival 3.5.3"; null where R or its package is not installed. */
export function referenceVersion(): string | null {
  const ask =
    'cat("R ", as.character(getRversion()), ", survival ", as.character(packageVersion("survival")), sep = "")';
  const ran = spawnSync("Rscript", ["-e", ask], { encoding: "utf8" });
  return ran.status === 0 ? ran.stdout.trim() : null;
}

const columns = [
  "time",
  "event",
  "cause",
  "group",
  "entry",
  "weight",
  "cluster",
  "stratum",
  "x1",
  "x2",
  "x3",
  "y",
] as const;

function rowsText(sets: readonly DataSet[]): string {
  const lines = sets.flatMap((data) =>
    data.time.map((_, row) => [data.set, ...columns.map((name) => data[name]?.[row] ?? "")].join(",")),
  );
  return `${["set", ...columns].join(",")}\n${lines.join("\n")}\n`;
}

function setsText(sets: readonly DataSet[]): string {
  const lines = sets.map(({ set, horizon, onceEach }) => `${set},${horizon},${onceEach ? 1 : 0}`);
  return `set,horizon,once\n${lines.join("\n")}\n`;
}

function read(text: string): Answers {
  const answers = new Map<number, Map<string, Answer>>();
  for (const line of text.split("\n").filter((one) => one !== "")) {
    const [set, method, figure, value] = line.split("\t") as [string, string, string, string];
    const ofSet = answers.get(Number(set)) ?? new Map<string, Answer>();
    answers.set(Number(set), ofSet);
    const answer = ofSet.get(method) ?? { figures: new Map<string, number | null>(), stopped: null };
    ofSet.set(method, answer);
    if (figure === "stopped") answer.stopped = value;
    else answer.figures.set(figure, value === "NA" || !Number.isFinite(Number(value)) ? null : Number(value));
  }
  return answers;
}

/** Hands all data sets to one process of the reference and reads its figures. @throws Error with its last words if it fails */
export function runReference(script: string, sets: readonly DataSet[]): Answers {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-live-"));
  try {
    writeFileSync(join(folder, "rows.csv"), rowsText(sets));
    writeFileSync(join(folder, "sets.csv"), setsText(sets));
    const ran = spawnSync("Rscript", [script, folder], { encoding: "utf8", maxBuffer: 1 << 26 });
    if (ran.status !== 0) throw new Error(`Rscript ${script} stopped: ${ran.stderr.trim().slice(-2000)}`);
    return read(readFileSync(join(folder, "figures.tsv"), "utf8"));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
