/** What one replicate says about one figure: an interval with the truth it should hold, or a test of something that is not so. */
export type Finding =
  | {
      readonly kind: "interval";
      readonly name: string;
      readonly truth: number;
      readonly value: number | null;
      readonly lower: number | null;
      readonly upper: number | null;
    }
  | { readonly kind: "test"; readonly name: string; readonly p: number | null };

/** Counts over replicates, and sums of the errors of the estimates. */
export interface Tally {
  readonly kind: Finding["kind"];
  replicates: number;
  /** Replicates that gave an interval or a p-value. */
  given: number;
  /** Intervals that held the truth; tests with p below 0.05. */
  hits: number;
  /** Intervals that lay above the truth, and below it. */
  above: number;
  below: number;
  errors: number;
  squares: number;
  width: number;
}

/** By name of the figure, in the order in which the names came up. */
export type Tallies = Record<string, Tally>;

const empty = (kind: Finding["kind"]): Tally => ({
  kind,
  replicates: 0,
  given: 0,
  hits: 0,
  above: 0,
  below: 0,
  errors: 0,
  squares: 0,
  width: 0,
});

function countInterval(tally: Tally, found: Extract<Finding, { kind: "interval" }>): void {
  const { truth, value, lower, upper } = found;
  if (value === null || lower === null || upper === null) return;
  tally.given++;
  if (truth < lower) tally.above++;
  else if (truth > upper) tally.below++;
  else tally.hits++;
  tally.errors += value - truth;
  tally.squares += (value - truth) ** 2;
  tally.width += upper - lower;
}

/** Adds what one replicate found. */
export function count(tallies: Tallies, findings: readonly Finding[]): void {
  for (const found of findings) {
    tallies[found.name] ??= empty(found.kind);
    const tally = tallies[found.name]!;
    tally.replicates++;
    if (found.kind === "interval") countInterval(tally, found);
    else if (found.p !== null) {
      tally.given++;
      if (found.p < 0.05) tally.hits++;
    }
  }
}

/** Adds the counts of a later chunk of replicates. Chunks are added in their order, so that sums are always the same. */
export function merge(into: Tallies, later: Tallies): void {
  for (const [name, more] of Object.entries(later)) {
    into[name] ??= empty(more.kind);
    const tally = into[name] as Tally;
    for (const field of [
      "replicates",
      "given",
      "hits",
      "above",
      "below",
      "errors",
      "squares",
      "width",
    ] as const)
      tally[field] += more[field];
  }
}
