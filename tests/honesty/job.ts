import { settings } from "./settings.js";
import { count, type Tallies } from "./tally.js";

/** Replicates from `from` to below `to` of one setting at one size. */
export interface Job {
  /** Place of the setting in the list. */
  readonly setting: number;
  readonly n: number;
  readonly from: number;
  readonly to: number;
  readonly truth: unknown;
}

/** The stream belongs to the replicate: who runs a job, and when, changes nothing. */
export function runJob({ setting, n, from, to, truth }: Job): Tallies {
  const tallies: Tallies = {};
  for (let stream = from; stream < to; stream++)
    count(tallies, settings[setting]!.replicate({ n, stream }, truth));
  return tallies;
}
