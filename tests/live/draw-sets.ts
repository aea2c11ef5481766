import { type Generator, seededGenerator } from "../../src/statistics/index.js";

/** One random data set: columns of equal length; a column that is left out is blank in the file. */
export interface DataSet {
  readonly set: number;
  readonly traits: string;
  readonly horizon: number;
  /** One row a subject and no weights: what takes neither start-stop rows nor weights can be compared too. */
  readonly onceEach: boolean;
  readonly time: readonly number[];
  readonly event: readonly number[];
  readonly cause: readonly number[];
  readonly group: readonly number[];
  readonly entry?: readonly number[];
  readonly weight?: readonly number[];
  readonly cluster?: readonly number[];
  readonly stratum?: readonly number[];
  readonly x1: readonly number[];
  readonly x2: readonly number[];
  readonly x3: readonly number[];
  readonly y: readonly number[];
}

const sizes = [2, 3, 5, 8, 12, 20, 40, 80, 200] as const;
const grains = ["weeks", "days", "fine"] as const;
const rows = ["plain", "late entry", "start-stop"] as const;
const weighings = ["unweighted", "unweighted", "whole weights", "fractional weights"] as const;
const covariates = ["free", "free", "free", "collinear", "constant", "one-sided"] as const;
const censored = [0, 0.3, 0.3, 0.8, 1] as const;

type Traits = ReturnType<typeof traitsOf>;

/** What kind of data set a number stands for. One-sided: nobody with x1 = 1 has the event, so its hazard ratio runs to 0. */
function traitsOf(generator: Generator) {
  const pick = <T>(from: readonly T[]): T => from[generator.integer(from.length)] as T;
  return {
    size: pick(sizes),
    grain: pick(grains),
    rows: pick(rows),
    weighing: pick(weighings),
    covariates: pick(covariates),
    censored: pick(censored),
    strata: pick([0, 0, 3] as const),
    clustered: pick([false, true] as const),
    groups: pick([2, 2, 3, 4] as const),
  };
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

function timeOf(grain: Traits["grain"], time: number): number {
  if (grain === "weeks") return 7 * Math.max(1, Math.round(time / 7));
  return grain === "days" ? Math.max(1, Math.ceil(time)) : rounded(time + 0.01, 3);
}

type Row = Record<
  | "time"
  | "event"
  | "cause"
  | "group"
  | "entry"
  | "weight"
  | "cluster"
  | "stratum"
  | "x1"
  | "x2"
  | "x3"
  | "y",
  number
>;

function drawSubject(at: { readonly index: number; readonly traits: Traits }, generator: Generator): Row[] {
  const { traits, index } = at;
  const { uniform, normal, integer } = generator;
  const group = integer(traits.groups);
  const x1 = traits.covariates === "one-sided" ? (uniform() < 0.4 ? 1 : 0) : rounded(normal(), 2);
  const x2 = uniform() < 0.4 ? 1 : 0;
  const x3 =
    traits.covariates === "collinear"
      ? rounded(2 * x1 - x2, 2)
      : traits.covariates === "constant"
        ? 4
        : rounded(30 + 8 * normal(), 1);
  const hazard = Math.exp(0.3 * group + 0.4 * x2 + (traits.covariates === "one-sided" ? 0 : 0.3 * x1));
  const back = (-Math.log(uniform()) * 80) / hazard;
  const followed = traits.censored === 0 ? back + 1 : 20 + uniform() * (traits.censored === 0.8 ? 40 : 250);
  const neverSeen = traits.censored === 1 || (traits.covariates === "one-sided" && x1 === 1);
  const seen = !neverSeen && back <= followed;
  const time = timeOf(traits.grain, Math.min(back, followed));
  const row: Row = {
    time,
    event: seen ? 1 : 0,
    cause: seen ? (uniform() < 0.7 ? 1 : 2) : 0,
    group,
    entry: 0,
    weight: traits.weighing === "whole weights" ? 1 + integer(3) : rounded(0.2 + 2 * uniform(), 3),
    cluster: traits.clustered ? integer(Math.max(2, Math.ceil(traits.size * 0.7))) : index,
    stratum: integer(3),
    x1,
    x2,
    x3,
    y: rounded(3 + 0.5 * group + 0.4 * x1 + normal(), 3),
  };
  if (traits.rows === "late entry")
    return [{ ...row, entry: timeOf("fine", uniform() * time * 0.6 - 0.009) }].filter(
      (r) => r.entry < r.time,
    );
  if (traits.rows !== "start-stop") return [row];
  return cut(row, {
    at: [21, 56, 120].filter((day) => day < time),
    step: () => rounded(normal() / 4, 2),
    traits,
  });
}

/** Pieces of one subject between the days given; the first covariate moves from piece to piece. */
function cut(
  row: Row,
  into: { readonly at: readonly number[]; readonly step: () => number; readonly traits: Traits },
): Row[] {
  const starts = [0, ...into.at];
  return starts.map((entry, piece) => {
    const last = piece === starts.length - 1;
    const moves = into.traits.covariates === "free" && piece > 0;
    return {
      ...row,
      entry,
      time: last ? row.time : starts[piece + 1]!,
      event: last ? row.event : 0,
      cause: last ? row.cause : 0,
      x1: moves ? rounded(row.x1 + into.step(), 2) : row.x1,
    };
  });
}

/** Draws one data set; its number is the stream, so each can be drawn again alone. */
function drawSet(seed: number, set: number): DataSet {
  const generator = seededGenerator(seed, set);
  const traits = traitsOf(generator);
  const drawn = Array.from({ length: traits.size }, (_, index) =>
    drawSubject({ index, traits }, generator),
  ).flat();
  const column = (name: keyof Row): number[] => drawn.map((row) => row[name]);
  const weighted = traits.weighing !== "unweighted";
  const entered = traits.rows !== "plain";
  return {
    set,
    traits: Object.entries(traits)
      .map(([name, value]) => `${name}: ${value}`)
      .join(", "),
    horizon: 60,
    onceEach: !weighted && !entered,
    time: column("time"),
    event: column("event"),
    cause: column("cause"),
    group: column("group"),
    ...(entered ? { entry: column("entry") } : {}),
    ...(weighted ? { weight: column("weight") } : {}),
    // pieces of one subject are no independent rows
    ...(traits.clustered || traits.rows === "start-stop" ? { cluster: column("cluster") } : {}),
    ...(traits.strata > 0 ? { stratum: column("stratum") } : {}),
    x1: column("x1"),
    x2: column("x2"),
    x3: column("x3"),
    y: column("y"),
  };
}

/** The data sets of a seed, in order of their number; those in which nobody was left are not there. */
export function drawSets(options: { readonly seed: number; readonly count: number }): readonly DataSet[] {
  return Array.from({ length: options.count }, (_, set) => drawSet(options.seed, set)).filter(
    ({ time }) => time.length > 0,
  );
}
