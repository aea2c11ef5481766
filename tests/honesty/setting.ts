import type { Finding } from "./tally.js";

/** Which replicate of a setting is drawn: n injuries in all, and the stream, which belongs to the replicate. */
export interface Draw {
  readonly n: number;
  readonly stream: number;
}

/** A kind of cohort, and what is read off each one drawn. */
export interface Setting {
  /** Sentences of a report on cohorts of programs of their own; intervals and tests on cohorts of the toolkit's. */
  readonly part: "sentences" | "intervals";
  readonly name: string;
  readonly about: string;
  /** What the data of its cohorts allow: the day of each return is known, or visits between which it lies, or no answer at all. */
  readonly allows: "days" | "visits" | "no answer";
  readonly sizes: readonly number[];
  readonly replicates: number;
  /** Computed once and handed to every replicate, so that it must survive being sent to a worker. */
  readonly truth: () => unknown;
  readonly replicate: (draw: Draw, truth: unknown) => readonly Finding[];
}

/** A setting whose replicates take the truth as it was computed. */
export function settingOf<Truth>(
  setting: Omit<Setting, "truth" | "replicate"> & {
    readonly truth: () => Truth;
    readonly replicate: (draw: Draw, truth: Truth) => readonly Finding[];
  },
): Setting {
  return { ...setting, replicate: (draw, truth) => setting.replicate(draw, truth as Truth) };
}
