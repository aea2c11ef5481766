import type { Generator, HazardColumns, Ties } from "../../../../src/statistics/index.js";

/** A small cohort with all that a row may have. */
export function drawn(random: Generator, how: { readonly weights: "none" | "some" }): HazardColumns {
  const n = 12 + random.integer(12);
  const each = (make: (row: number) => number): number[] => Array.from({ length: n }, (_, row) => make(row));
  const times = each(() => 1 + random.integer(8));
  return {
    times,
    events: each(() => (random.uniform() < 0.7 ? 1 : 0)),
    covariates: { names: ["a", "b"], columns: [each(() => random.normal()), each(() => random.integer(3))] },
    ...(random.integer(2) === 1 && { strata: each(() => random.integer(2)) }),
    ...(random.integer(2) === 1 && { entries: times.map((time) => Math.floor(random.uniform() * time)) }),
    ...(how.weights === "some" && { weights: each(() => 0.5 + random.uniform()) }),
  };
}

/** Rows at risk at a row's time, in its stratum. */
export function riskSet({ times, entries, strata }: HazardColumns, row: number): number[] {
  return Array.from({ length: times.length }, (_, at) => at).filter(
    (at) =>
      (strata?.[at] ?? 0) === (strata?.[row] ?? 0) &&
      times[at]! >= times[row]! &&
      (entries?.[at] ?? Number.NEGATIVE_INFINITY) < times[row]!,
  );
}

/** First event of each tied time in each stratum, with all events of it. */
export function tiedTimes(columns: HazardColumns): number[][] {
  const groups = new Map<string, number[]>();
  for (let row = 0; row < columns.times.length; row++) {
    if (columns.events[row] !== 1) continue;
    const key = `${columns.strata?.[row] ?? 0} ${columns.times[row]}`;
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [...groups.values()];
}

const logHazard = ({ covariates }: HazardColumns, beta: readonly number[], row: number): number =>
  beta.reduce((sum, b, j) => sum + b * covariates.columns[j]![row]!, 0);

/** Every choice of d out of some. */
function* choices(rows: readonly number[], d: number): IterableIterator<number[]> {
  if (d === 0) yield [];
  else
    for (let first = 0; first <= rows.length - d; first++)
      for (const rest of choices(rows.slice(first + 1), d - 1)) yield [rows[first]!, ...rest];
}

/** Log-likelihood and information, term by term as they are written in a book. */
export function byDefinition(
  columns: HazardColumns,
  beta: readonly number[],
  ties: Ties,
): { logLikelihood: number; information: number[][] } {
  const size = beta.length;
  const information = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const weight = (row: number): number => columns.weights?.[row] ?? 1;
  const x = (row: number, j: number): number => columns.covariates.columns[j]![row]!;
  let logLikelihood = 0;
  for (const events of tiedTimes(columns)) {
    const atRisk = riskSet(columns, events[0]!);
    const d = events.length;
    for (const row of events) logLikelihood += weight(row) * logHazard(columns, beta, row);
    if (ties === "exact") {
      let sum = 0;
      for (const choice of choices(atRisk, d))
        sum += Math.exp(choice.reduce((eta, row) => eta + logHazard(columns, beta, row), 0));
      logLikelihood -= Math.log(sum);
      continue;
    }
    const whole = events.reduce((sum, row) => sum + weight(row), 0);
    const parts = ties === "efron" ? events.map((_, q) => q / d) : [0];
    for (const part of parts) {
      const w = whole / parts.length;
      const risk = atRisk.map(
        (row) =>
          weight(row) * Math.exp(logHazard(columns, beta, row)) * (events.includes(row) ? 1 - part : 1),
      );
      const s0 = risk.reduce((sum, r) => sum + r, 0);
      const mean = beta.map((_, j) => atRisk.reduce((sum, row, i) => sum + risk[i]! * x(row, j), 0) / s0);
      logLikelihood -= w * Math.log(s0);
      for (let j = 0; j < size; j++)
        for (let k = 0; k < size; k++) {
          const covariance = atRisk.reduce(
            (sum, row, i) => sum + risk[i]! * (x(row, j) - mean[j]!) * (x(row, k) - mean[k]!),
            0,
          );
          information[j]![k]! += (w * covariance) / s0;
        }
    }
  }
  return { logLikelihood, information };
}
