import { drawsOf, toThree } from "./draws.js";

/** The made-up cohort that the cases run on, as columns; `x[0]` is x1. */
export interface BenchCohort {
  readonly n: number;
  readonly group: Int32Array;
  readonly x: readonly Float64Array[];
  readonly stratum: Int32Array;
  readonly cluster: Int32Array;
  readonly day: Float64Array;
  /** Nearly free of ties. */
  readonly time: Float64Array;
  readonly status: Uint8Array;
  readonly cause: Uint8Array;
  readonly entry: Float64Array;
}

const drawsARow = 27;

/**
 * 27 draws a row, u1 to u27: group = u1 < 0.5; x1..x5 sums of three uniforms with mean 0 and variance 1, x6..x10 present in 30 %;
 * 20 strata, clusters of about 5; time exponential with mean 400 / exp(0.4 group + 0.3 x1 - 0.2 x2 + 0.25 x6), censored uniformly
 * up to 1500; day = the time rounded up; two causes, 6 to 4; entry before the day.
 */
export function cohortOf(n: number, seed = 7): BenchCohort {
  const next = drawsOf(seed);
  const u = new Float64Array(drawsARow + 1);
  const cohort: BenchCohort = {
    n,
    group: new Int32Array(n),
    x: Array.from({ length: 10 }, () => new Float64Array(n)),
    stratum: new Int32Array(n),
    cluster: new Int32Array(n),
    day: new Float64Array(n),
    time: new Float64Array(n),
    status: new Uint8Array(n),
    cause: new Uint8Array(n),
    entry: new Float64Array(n),
  };
  for (let row = 0; row < n; row++) {
    for (let draw = 1; draw <= drawsARow; draw++) u[draw] = next();
    fillRow(cohort, row, u);
  }
  return cohort;
}

function fillRow(cohort: BenchCohort, row: number, u: Float64Array): void {
  const at = (draw: number): number => u[draw]!;
  const { x, n } = cohort;
  const group = at(1) < 0.5 ? 1 : 0;
  for (let k = 1; k <= 5; k++)
    x[k - 1]![row] = toThree(2 * (at(3 * k - 1) + at(3 * k) + at(3 * k + 1) - 1.5));
  for (let k = 6; k <= 10; k++) x[k - 1]![row] = at(11 + k) < 0.3 ? 1 : 0;
  const value = (k: number): number => x[k - 1]![row]!;
  const logHazard = 0.4 * group + 0.3 * value(1) - 0.2 * value(2) + 0.25 * value(6);
  const event = (-Math.log(at(24)) * 400) / Math.exp(logHazard);
  const censored = 1500 * at(25);
  const time = Math.floor(Math.min(event, censored) * 1e4 + 0.5) / 1e4;
  const day = Math.max(1, Math.ceil(time));
  cohort.group[row] = group;
  cohort.stratum[row] = Math.floor(20 * at(22)) + 1;
  cohort.cluster[row] = Math.floor(at(23) * Math.ceil(n / 5)) + 1;
  cohort.time[row] = time;
  cohort.day[row] = day;
  cohort.status[row] = event <= censored ? 1 : 0;
  cohort.cause[row] = cohort.status[row] === 0 ? 0 : at(26) < 0.6 ? 1 : 2;
  cohort.entry[row] = Math.floor(at(27) * day);
}

/** The rows of a cohort cut at days 90, 180 and 365; x1 gains 0.1 x2 a piece, the event falls in the last. */
export interface StartStop {
  readonly entries: Float64Array;
  readonly times: Float64Array;
  readonly events: Uint8Array;
  readonly x: readonly Float64Array[];
}

const cuts = [0, 90, 180, 365, Number.POSITIVE_INFINITY];

export function startStopOf(cohort: BenchCohort): StartStop {
  const pieces = (day: number): number => cuts.findIndex((cut) => cut >= day);
  let rows = 0;
  for (const day of cohort.day) rows += pieces(day);
  const cut: StartStop = {
    entries: new Float64Array(rows),
    times: new Float64Array(rows),
    events: new Uint8Array(rows),
    x: Array.from({ length: 5 }, () => new Float64Array(rows)),
  };
  let to = 0;
  for (let from = 0; from < cohort.n; from++) {
    const day = cohort.day[from]!;
    for (let piece = 0; piece < pieces(day); piece++, to++) {
      cut.entries[to] = cuts[piece]!;
      cut.times[to] = Math.min(day, cuts[piece + 1]!);
      cut.events[to] = day <= cuts[piece + 1]! ? cohort.status[from]! : 0;
      for (let k = 0; k < 5; k++) cut.x[k]![to] = cohort.x[k]![from]!;
      cut.x[0]![to]! += 0.1 * piece * cohort.x[1]![from]!;
    }
  }
  return cut;
}
