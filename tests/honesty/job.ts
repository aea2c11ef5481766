import type { Truth } from "../../src/synthetic/index.js";
import { settings } from "./settings.js";
import { count, type Tallies } from "./tally.js";

/** Replicates from `from` to below `to` of one setting at one size. */
export interface Job {
  readonly setting: number;
  readonly n: number;
  readonly from: number;
  readonly to: number;
  readonly truth: Truth | null;
}

/** The seed belongs to the setting and size, the stream to the replicate: who runs a job, and when, changes nothing. */
const seedOf = ({ setting, n }: Job): number => 31_000_000 + 1000 * setting + n;

export function runJob(job: Job): Tallies {
  const { replicate } = settings[job.setting]!;
  const tallies: Tallies = {};
  for (let stream = job.from; stream < job.to; stream++)
    count(tallies, replicate({ n: job.n, seed: seedOf(job), stream, truth: job.truth }));
  return tallies;
}
