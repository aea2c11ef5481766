import { ArgumentError } from "../../shared/arguments.js";
import type { AskedCoefficients } from "./estimates.js";
import { type Layout, layOut } from "./layout.js";
import type { MultinomialRows } from "./multinomial-likelihood.js";
import type { MultinomialColumns } from "./multinomial-types.js";
import { spreadOf } from "./separation.js";

/** A multinomial regression laid out, before any iteration. */
export interface PreparedCategories {
  readonly layout: Layout;
  /** The reference first, then ascending. */
  readonly categories: readonly number[];
  /** Rows with weight in each. */
  readonly counts: readonly number[];
  readonly rows: MultinomialRows;
  readonly asked: AskedCoefficients;
}

function orderOf(present: readonly number[], reference: number | undefined): number[] {
  const codes = [...new Set(present)].sort((a, b) => a - b);
  if (reference === undefined || codes.length === 0) return codes;
  if (!codes.includes(reference))
    throw new ArgumentError({
      argument: "reference",
      index: null,
      expected: `one of the categories (${codes.join(", ")})`,
      found: reference,
    });
  return [reference, ...codes.filter((code) => code !== reference)];
}

/** A function on the columns of the basis, as one on the variables of a category. */
function inBlock(
  functional: Float64Array | null,
  at: { block: number; blocks: number },
): Float64Array | null {
  if (functional === null) return null;
  const result = new Float64Array(functional.length * at.blocks);
  result.set(functional, at.block * functional.length);
  return result;
}

/** @throws ArgumentError for a reference that is no category */
export function prepareCategories(
  columns: MultinomialColumns,
  options: { readonly reference?: number | undefined },
): PreparedCategories {
  const layout = layOut(columns, columns.categories.length);
  const { basis } = layout;
  const present = Array.from(layout.rows, (row) => columns.categories[row]!);
  const categories = orderOf(present, options.reference);
  const place = new Map(categories.map((code, k) => [code, k]));
  const y = Int32Array.from(present, (code) => place.get(code)!);
  const counts = categories.map(() => 0);
  for (const k of y) counts[k]!++;
  const others = categories.slice(1);
  const spreads = [1, ...columns.covariates.columns.map(spreadOf)];
  const names = ["intercept", ...columns.covariates.names];
  return {
    layout,
    categories,
    counts,
    rows: {
      n: basis.rows,
      width: basis.size,
      x: basis.values,
      y,
      categories: categories.length,
      weights: layout.weights,
      allowed: null,
    },
    asked: {
      names: others.flatMap((code) => names.map((name) => `${code}: ${name}`)),
      functionals: others.flatMap((_, block) =>
        layout.functionals.map((functional) => inBlock(functional, { block, blocks: others.length })),
      ),
      spreads: others.flatMap(() => spreads),
    },
  };
}
