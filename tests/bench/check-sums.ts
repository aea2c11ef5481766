import { cohortOf, startStopOf } from "./cohort.js";

/** Sums over the cohort of 10,000 rows, the same in every language. */
const wanted: readonly (readonly [name: string, sum: number])[] = [
  ["group", 4976],
  ["x1", 127.052],
  ["x10", 3086],
  ["stratum", 105_014],
  ["cluster", 9_859_973],
  ["day", 2_459_157],
  ["time", 2_454_152.4934],
  ["status", 7866],
  ["cause", 11_022],
  ["entry", 1_212_801],
  ["start-stop rows", 23_784],
  ["start-stop events", 7866],
];

const sum = (values: ArrayLike<number>): number =>
  Array.from(values).reduce((total, value) => total + value, 0);

/** @throws Error naming the first column whose sum is not that of the recipe */
export function verifyCheckSums(): void {
  const cohort = cohortOf(10_000);
  const { group, x, stratum, cluster, day, time, status, cause, entry } = cohort;
  const cut = startStopOf(cohort);
  const found: Readonly<Record<string, number>> = {
    group: sum(group),
    x1: sum(x[0]!),
    x10: sum(x[9]!),
    stratum: sum(stratum),
    cluster: sum(cluster),
    day: sum(day),
    time: sum(time),
    status: sum(status),
    cause: sum(cause),
    entry: sum(entry),
    "start-stop rows": cut.times.length,
    "start-stop events": sum(cut.events),
  };
  for (const [name, value] of wanted)
    if (!(Math.abs(found[name]! - value) < 1e-4))
      throw new Error(
        `the recipe of the data is not met: the sum of ${name} must be ${value}; found ${found[name]}`,
      );
}
