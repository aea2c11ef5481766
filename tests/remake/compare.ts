/** How far two files of reference figures lie apart. */
export interface Distance {
  /** Largest difference of two numbers, as a share of the larger or, where both are below 0.001, of 0.001. */
  readonly worst: number;
  /** Where that one stands, as "/cases/freireich/expected/p"; empty if no number differs. */
  readonly worstAt: string;
  /** Places where the files differ otherwise than by the size of a number. */
  readonly unlike: readonly string[];
}

/** Numbers that are zero but for rounding have no digits to compare. */
const smallest = 1e-3;

/** The parts of a file that say what made it, not what was made. */
const origin = /^\/software/;

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null;

const label = (value: unknown, key: string): string =>
  isObject(value) && typeof value.id === "string" ? value.id : key;

/** Compares two parsed files, number by number; versions of software are not compared. */
export function distance(kept: unknown, made: unknown): Distance {
  const unlike: string[] = [];
  let worst = 0;
  let worstAt = "";
  const walk = (one: unknown, other: unknown, at: string): void => {
    if (one === other || origin.test(at)) return;
    if (typeof one === "number" && typeof other === "number") {
      const apart = Math.abs(one - other) / Math.max(Math.abs(one), Math.abs(other), smallest);
      if (apart > worst) [worst, worstAt] = [apart, at];
    } else if (isObject(one) && isObject(other) && Array.isArray(one) === Array.isArray(other)) {
      for (const key of new Set([...Object.keys(one), ...Object.keys(other)]))
        walk(one[key], other[key], `${at}/${label(one[key], key)}`);
    } else unlike.push(at);
  };
  walk(kept, made, "");
  return { worst, worstAt, unlike };
}
