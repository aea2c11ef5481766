import { type Layout, layOut } from "./layout.js";
import { type LogisticRows, logLikelihood, penalisedLogLikelihood } from "./likelihood.js";
import { fitToLimit, type LimitFit } from "./limit-fit.js";
import type { LogisticColumns } from "./logistic-types.js";
import { climb } from "./newton.js";
import type { Objective } from "./objective.js";

/** A logistic regression laid out, before any iteration. */
export interface Prepared {
  readonly layout: Layout;
  readonly rows: LogisticRows;
  /** Rows that count, and those with the outcome. */
  readonly n: number;
  readonly outcomes: number;
  readonly ordinary: Objective;
  readonly penalised: Objective;
}

export function prepare(columns: LogisticColumns): Prepared {
  const layout = layOut(columns, columns.outcome.length);
  const { basis, weights } = layout;
  const y = Uint8Array.from(layout.rows, (row) => columns.outcome[row]!);
  const rows = { n: basis.rows, size: basis.size, x: basis.values, y, weights };
  return {
    layout,
    rows,
    n: y.length,
    outcomes: y.reduce((sum, one) => sum + one, 0),
    ordinary: logLikelihood(rows),
    penalised: penalisedLogLikelihood(rows),
  };
}

/** Each row, turned round where the outcome was not seen. */
function turned({ n, size, x, y }: LogisticRows): { count: number; size: number; z: Float64Array } {
  const z = x.slice();
  for (let row = 0; row < n; row++)
    if (y[row] === 0) for (let j = 0; j < size; j++) z[row * size + j] = -x[row * size + j]!;
  return { count: n, size, z };
}

/** The rows not marked. */
function rowsLeft(rows: LogisticRows, strict: Uint8Array): LogisticRows {
  const kept = Int32Array.from({ length: rows.n }, (_, row) => row).filter((row) => strict[row] === 0);
  const x = new Float64Array(kept.length * rows.size);
  kept.forEach((row, i) => {
    x.set(rows.x.subarray(row * rows.size, (row + 1) * rows.size), i * rows.size);
  });
  return {
    n: kept.length,
    size: rows.size,
    x,
    y: Uint8Array.from(kept, (row) => rows.y[row]!),
    weights: Float64Array.from(kept, (row) => rows.weights[row]!),
  };
}

export interface Iterations {
  readonly maximumIterations: number;
  readonly tolerance: number;
}

/** The ordinary maximum, or its limit under separation. */
export const fitOrdinary = ({ ordinary, rows }: Prepared, iterations: Iterations): LimitFit =>
  fitToLimit(
    {
      objective: ordinary,
      margins: () => turned(rows),
      without: (strict) => logLikelihood(rowsLeft(rows, strict)),
    },
    iterations,
  );

/** The penalised maximum, which is always finite. */
export function fitPenalised({ penalised }: Prepared, iterations: Iterations): LimitFit {
  const start = new Float64Array(penalised.size);
  return {
    objective: penalised,
    span: null,
    climb: climb(penalised, { ...iterations, start }),
    recession: null,
  };
}
