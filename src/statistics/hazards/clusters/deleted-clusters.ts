import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";
import { clusterIndex } from "../../shared/clusters.js";
import { indexOfCodes } from "../../shared/codes.js";
import { standardise } from "../../shared/covariates.js";
import { asDoubles } from "../layout/layout.js";
import type { HazardColumns } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { emptyStratumSums, type StratumSums, sumStratum, type TiedRows } from "./stratum-sums.js";

/** Where a regression stands: the covariates that have a finite coefficient, and those coefficients, in the caller's units. */
export interface FittedAt {
  readonly kept: readonly number[];
  readonly coefficients: readonly number[];
  readonly ties: SummedTies;
  /**
   * Score and information (flat by rows) of these rows together with others that no cluster of these has rows among, by the kept covariates in
   * their own units; left out: there are no others.
   */
  readonly all?: { readonly score: ArrayLike<number>; readonly information: ArrayLike<number> };
}

/** A change of the kept coefficients for each cluster, in the caller's units; null where what is left cannot estimate them. */
export type DeletionChanges = readonly (Float64Array | null)[];

/** What deleting every cluster in turn may cost; beyond it, with many hundreds of persons, there is next to nothing to correct. */
const mostWork = 4e6;
/** Of one row, in visits of a row with one covariate. */
const workOfRow = ({ size, wanted }: DeletionRows): number =>
  wanted === "score" ? (1 + size) / 2 : ((1 + size) / 2) ** 2;
/** Information left, of what there was, below which nothing can be estimated. */
const nothingLeft = 1e-9;

/** Rows of each stratum from the last time to the first, and from the last entry to the first. */
function tiedRowsOf(columns: DeletionRows["columns"], index: Int32Array, count: number): TiedRows[] {
  const members: number[][] = Array.from({ length: count }, () => []);
  index.forEach((stratum, row) => {
    members[stratum]!.push(row);
  });
  const falling = (rows: readonly number[], values: ArrayLike<number>) =>
    Int32Array.from(rows).sort((a, b) => values[b]! - values[a]! || a - b);
  return members.map((rows) => ({
    byTime: falling(rows, columns.times),
    byEntry: columns.entries ? falling(rows, columns.entries) : null,
  }));
}

/** Strata in which each cluster has rows. */
function strataOfClusters(
  cluster: { readonly of: Int32Array; readonly count: number },
  stratum: Int32Array,
): number[][] {
  const touched: number[][] = Array.from({ length: cluster.count }, () => []);
  cluster.of.forEach((k, row) => {
    const own = touched[k]!;
    if (!own.includes(stratum[row]!)) own.push(stratum[row]!);
  });
  return touched;
}

/** Rows of a regression or a comparison: what stands for a covariate (flat by rows), and the risk of each row. */
export interface DeletionRows {
  readonly columns: Omit<HazardColumns, "covariates">;
  readonly x: Float64Array;
  readonly size: number;
  readonly risk: Float64Array;
  readonly ties: SummedTies;
  readonly wanted: "score" | "score and information";
}

/**
 * Score and information of all rows, and then without each cluster's. Only the strata in which a cluster has rows are summed again.
 *
 * @param visit called for each cluster, in the order in which they first occur; `left` is used again for the next
 * @returns false, and nothing is visited, where there are too many rows to go through
 */
export function visitDeletions(
  given: DeletionRows,
  visit: (cluster: number, sums: { readonly left: StratumSums; readonly total: StratumSums }) => void,
): boolean {
  const { columns, size } = given;
  const cluster = clusterIndex(columns);
  const strata = columns.strata
    ? indexOfCodes(asDoubles(columns.strata))
    : { codes: [0], index: new Int32Array(columns.times.length) };
  const rows = tiedRowsOf(columns, strata.index, strata.codes.length);
  const touched = strataOfClusters(cluster, strata.index);
  const visits = touched.reduce(
    (sum, own) => sum + own.reduce((part, s) => part + rows[s]!.byTime.length, 0),
    0,
  );
  if (visits * workOfRow(given) > mostWork) return false;
  const weight = Float64Array.from(given.risk, (_, row) => columns.weights?.[row] ?? 1);
  const risk = given.risk.map((own, row) => own * weight[row]!);
  const common = { ...given, cluster: cluster.of, weight, risk };
  const whole = rows.map((one) => sumStratum({ ...common, rows: one, without: -1 }, emptyStratumSums(size)));
  const total = emptyStratumSums(size);
  for (const one of whole) addTo(total, one, 1);
  const left = emptyStratumSums(size);
  const again = emptyStratumSums(size);
  touched.forEach((own, k) => {
    left.score.set(total.score);
    left.information.set(total.information);
    for (const s of own) {
      addTo(left, whole[s]!, -1);
      addTo(left, sumStratum({ ...common, rows: rows[s]!, without: k }, again), 1);
    }
    visit(k, { left, total });
  });
  return true;
}

/**
 * How much one Newton step from the fitted coefficients changes them when a cluster's rows are gone: b - b(-g) = -I(-g)^-1 U(-g), U and I
 * being score and information of the rows that are left, at the coefficients of all.
 *
 * @returns a change for each cluster, in the order in which they first occur; null where there are too many rows to go through
 * @source Lipsitz, Dear & Zhao 1994, Biometrics 50:842
 */
export function changesByDeletion(columns: HazardColumns, at: FittedAt): DeletionChanges | null {
  const size = at.kept.length;
  const n = columns.times.length;
  const { x, scale } = standardise(
    at.kept.map((j) => columns.covariates.columns[j]!),
    n,
  );
  const beta = at.coefficients.map((b, k) => b * scale[k]!);
  const risk = Float64Array.from({ length: n }, (_, row) =>
    Math.exp(beta.reduce((sum, b, k) => sum + b * x[row * size + k]!, 0)),
  );
  const given = { columns, x, size, risk, wanted: "score and information" } as const;
  const all = at.all && standardised(at.all, scale);
  const changes: (Float64Array | null)[] = [];
  const gone = visitDeletions({ ...given, ties: at.ties }, (_, { left, total }) => {
    const whole = all ?? total;
    if (all !== undefined) {
      addTo(left, all, 1);
      addTo(left, total, -1);
    }
    const diagonal = Array.from({ length: size }, (_, k) => whole.information[k * size + k]!);
    const factor = factorSymmetric(left.information, {
      size,
      tolerance: nothingLeft,
      floor: nothingLeft * Math.max(0, ...diagonal),
    });
    const estimable = factor.kept.length === size;
    changes.push(estimable ? solveFactored(factor, left.score).map((step, j) => -step / scale[j]!) : null);
  });
  return gone ? changes : null;
}

/** Sums in the units of the covariates, by covariates over their scale. */
function standardised(
  { score, information }: NonNullable<FittedAt["all"]>,
  scale: Float64Array,
): StratumSums {
  const size = scale.length;
  return {
    score: Float64Array.from(score, (value, j) => value / scale[j]!),
    information: Float64Array.from(
      information,
      (value, at) => value / (scale[Math.floor(at / size)]! * scale[at % size]!),
    ),
  };
}

function addTo(into: StratumSums, sums: StratumSums, sign: 1 | -1): void {
  for (let k = 0; k < into.score.length; k++) into.score[k]! += sign * sums.score[k]!;
  for (let k = 0; k < into.information.length; k++) into.information[k]! += sign * sums.information[k]!;
}
