/**
 * A wrong question: an argument that no method can be run on. Degenerate but well-formed data are never an error;
 * they give `null` with a reason (see figure.ts).
 */
export class ArgumentError extends Error {
  override readonly name = "ArgumentError";
  /** Name of the argument as the caller wrote it, e.g. "times". */
  readonly argument: string;
  /** Position in the argument, or null where the argument as a whole is at fault. */
  readonly index: number | null;
  readonly expected: string;
  readonly found: string;

  constructor(problem: { argument: string; index: number | null; expected: string; found: unknown }) {
    const where = problem.index === null ? problem.argument : `${problem.argument}[${problem.index}]`;
    super(`${where} must be ${problem.expected}; found ${String(problem.found)}`);
    this.argument = problem.argument;
    this.index = problem.index;
    this.expected = problem.expected;
    this.found = String(problem.found);
  }
}

/** A column as it is passed in, under the name that an error message will use. */
export interface NamedColumn {
  readonly name: string;
  readonly values: ArrayLike<number>;
}

type Test = { readonly expected: string; readonly accepts: (value: number) => boolean };

/** The kinds of value a column may hold, each with the words that an error uses. */
const kinds = {
  finite: { expected: "a finite number", accepts: Number.isFinite },
  "not negative": { expected: "a finite number, 0 or more", accepts: (v) => Number.isFinite(v) && v >= 0 },
  positive: { expected: "a finite number above 0", accepts: (v) => Number.isFinite(v) && v > 0 },
  "zero or one": { expected: "0 or 1", accepts: (v) => v === 0 || v === 1 },
  code: { expected: "a whole number", accepts: Number.isSafeInteger },
  count: { expected: "a whole number, 0 or more", accepts: (v) => Number.isSafeInteger(v) && v >= 0 },
  "open share": { expected: "a number between 0 and 1, both excluded", accepts: (v) => v > 0 && v < 1 },
} as const satisfies Record<string, Test>;

export type Kind = keyof typeof kinds;

/** Callers without types pass whatever they have. @throws ArgumentError for what is no array, null and a text included */
export function checkIsColumn({ name, values }: { readonly name: string; readonly values: unknown }): void {
  if (
    typeof values === "object" &&
    values !== null &&
    Number.isSafeInteger((values as { length?: unknown }).length)
  )
    return;
  const found = values === null ? "null" : typeof values;
  throw new ArgumentError({ argument: name, index: null, expected: "an array of numbers", found });
}

/** Checks each value of a column. @throws ArgumentError naming the column and the first index that fails */
export function checkColumn({ name, values }: NamedColumn, kind: Kind): void {
  checkIsColumn({ name, values });
  const { expected, accepts } = kinds[kind];
  for (let index = 0; index < values.length; index++) {
    const value = values[index] as number;
    if (!accepts(value)) throw new ArgumentError({ argument: name, index, expected, found: value });
  }
}

/** Checks one number. @throws ArgumentError naming it */
export function checkNumber(named: { readonly name: string; readonly value: number }, kind: Kind): void {
  const { expected, accepts } = kinds[kind];
  if (!accepts(named.value))
    throw new ArgumentError({ argument: named.name, index: null, expected, found: named.value });
}

/** Checks that a column has as many values as another. @throws ArgumentError naming the shorter or longer one */
export function checkSameLength(column: NamedColumn, first: NamedColumn): void {
  checkIsColumn(first);
  checkIsColumn(column);
  if (column.values.length !== first.values.length)
    throw new ArgumentError({
      argument: column.name,
      index: null,
      expected: `as long as ${first.name} (${first.values.length} values)`,
      found: `${column.values.length} values`,
    });
}
