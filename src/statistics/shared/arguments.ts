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

  constructor(problem: {
    argument: string;
    index: number | null;
    expected: string;
    found: unknown;
    /** The message, where "must be" does not say it. */
    sentence?: string;
  }) {
    const where = problem.index === null ? problem.argument : `${problem.argument}[${problem.index}]`;
    super(problem.sentence ?? `${where} must be ${problem.expected}; found ${String(problem.found)}`);
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

/** Limits, both included, and the words that an error uses. Written as limits so that one quick loop serves all kinds. */
interface Allowed {
  readonly expected: string;
  readonly least: number;
  readonly most: number;
  readonly whole: boolean;
}

const largest = Number.MAX_VALUE;
const smallest = Number.MIN_VALUE;
const largestWhole = Number.MAX_SAFE_INTEGER;
const justBelowOne = 1 - Number.EPSILON / 2;

const kinds = {
  finite: { expected: "a finite number", least: -largest, most: largest, whole: false },
  "not negative": { expected: "a finite number, 0 or more", least: 0, most: largest, whole: false },
  positive: { expected: "a finite number above 0", least: smallest, most: largest, whole: false },
  "zero or one": { expected: "0 or 1", least: 0, most: 1, whole: true },
  code: { expected: "a whole number", least: -largestWhole, most: largestWhole, whole: true },
  count: { expected: "a whole number, 0 or more", least: 0, most: largestWhole, whole: true },
  "open share": {
    expected: "a number between 0 and 1, both excluded",
    least: smallest,
    most: justBelowOne,
    whole: false,
  },
  "share below one": { expected: "a number from 0 to below 1", least: 0, most: justBelowOne, whole: false },
  "positive count": { expected: "a whole number, 1 or more", least: 1, most: largestWhole, whole: true },
} as const satisfies Record<string, Allowed>;

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

/** Index of the first value that is not allowed, or -1. */
function firstFault(values: ArrayLike<number>, allowed: Allowed): number {
  if (holdsWholeNumbersOnly(values)) return firstOutside(values, allowed);
  const noNumber = firstThatIsNoNumber(values);
  const { least, most, whole } = allowed;
  // one kind of array throughout, or the loop would be slow for having met several
  const own = floatsOf(noNumber < 0 ? values : first(values, noNumber));
  for (let i = 0; i < own.length; i++) {
    const value = own[i]!;
    if (!(value >= least && value <= most) || (whole && value !== Math.floor(value))) return i;
  }
  return noNumber;
}

type WholeNumbers = Int32Array | Uint8Array | Uint16Array | Uint32Array;

const holdsWholeNumbersOnly = (values: ArrayLike<number>): values is WholeNumbers =>
  values instanceof Int32Array ||
  values instanceof Uint8Array ||
  values instanceof Uint16Array ||
  values instanceof Uint32Array;

function firstOutside(values: WholeNumbers, { least, most }: Allowed): number {
  // the positive ones start above 0, at the least number there is
  const [low, high] = [Math.max(-(2 ** 31), Math.ceil(least)), Math.min(2 ** 32 - 1, Math.floor(most))];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < low || value > high) return i;
  }
  return -1;
}

/** Callers without types may pass what is no number, unless it is a typed array. */
function firstThatIsNoNumber(values: ArrayLike<unknown>): number {
  if (values instanceof Float64Array) return -1;
  for (let i = 0; i < values.length; i++) if (typeof values[i] !== "number") return i;
  return -1;
}

const first = (values: ArrayLike<number>, count: number): number[] =>
  Array.prototype.slice.call(values, 0, count);

/** Checks each value of a column. @throws ArgumentError naming the column and the first index that fails */
export function checkColumn({ name, values }: NamedColumn, kind: Kind): void {
  checkIsColumn({ name, values });
  const index = firstFault(values, kinds[kind]);
  if (index < 0) return;
  throw new ArgumentError({ argument: name, index, expected: kinds[kind].expected, found: values[index] });
}

/** Checks one number. @throws ArgumentError naming it */
export function checkNumber(named: { readonly name: string; readonly value: number }, kind: Kind): void {
  const { value } = named;
  const { expected, least, most, whole } = kinds[kind];
  const allowed =
    typeof value === "number" && value >= least && value <= most && (!whole || value === Math.floor(value));
  if (allowed) return;
  const found = typeof value === "string" ? `"${value}"` : value;
  throw new ArgumentError({ argument: named.name, index: null, expected, found });
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

/** A column that has been checked as one kind of array, so that a loop over it stays quick whatever callers pass. Not a copy if it is one already. */
export const floatsOf = (values: ArrayLike<number>): Float64Array =>
  values instanceof Float64Array ? values : new Float64Array(values);
