import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

/** What a run of one case in a process of its own found. */
export interface Timing {
  /** Median of warm runs. */
  readonly seconds: number;
  /** The first, cold run. */
  readonly first: number;
  readonly runs: number;
  /** Most memory the process held, MB, and how much of it before the first run: the runtime and the data. */
  readonly megabytes: number;
  readonly megabytesOfData: number | null;
  readonly difference: number | null;
}

const ownCase = fileURLToPath(new URL("./run-case.js", import.meta.url));

function lineOf(command: string, words: readonly string[]): Timing | null {
  const ran = spawnSync(command, words, {
    encoding: "utf8",
    env: { ...process.env, OPENBLAS_NUM_THREADS: "1" },
  });
  if (ran.status !== 0)
    throw new Error(`${command} ${words.join(" ")} ended with ${ran.status}: ${ran.stderr.slice(-1000)}`);
  const line = ran.stdout.trim().split("\n").at(-1) ?? "";
  return line === "" ? null : (JSON.parse(line) as Timing);
}

export const timeOurs = (of: {
  readonly name: string;
  readonly n: number;
  readonly seconds: number;
}): Timing => lineOf(process.execPath, [ownCase, of.name, String(of.n), String(of.seconds)])!;

/** Null where the peer does not run this case: its package is not installed. */
export const timePeer = (of: {
  readonly name: string;
  readonly n: number;
  readonly seconds: number;
}): Timing | null => lineOf("Rscript", ["tests/bench/peers.R", of.name, String(of.n), String(of.seconds)]);

/** What the peers are, or null where R is not installed. */
export function peerVersion(): string | null {
  const ask =
    'cat("R ", as.character(getRversion()), ", survival ", as.character(packageVersion("survival")), sep = "")';
  const ran = spawnSync("Rscript", ["-e", ask], { encoding: "utf8" });
  return ran.status === 0 ? ran.stdout.trim() : null;
}

/** Milliseconds from the start of a process to its end. */
export function startMilliseconds(words: readonly string[]): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: "utf8" });
  if (status !== 0) throw new Error(`node ${words.join(" ")} ended with ${status}: ${stderr}`);
  return performance.now() - start;
}

export const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
