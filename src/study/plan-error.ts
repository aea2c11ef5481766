/** One thing wrong in a study file. */
export interface PlanProblem {
  readonly line: number;
  readonly column: number;
  /** Key or keys that lead to the place, as `compare.by`. */
  readonly at: string;
  readonly expected: string;
  readonly mend: string;
}

/** A study file that cannot be followed: every problem at once, in the order of the file. */
export class PlanError extends Error {
  override readonly name = "PlanError";
  constructor(
    readonly file: string,
    readonly problems: readonly PlanProblem[],
  ) {
    super(problems.map((problem) => planProblemText(file, problem)).join("\n"));
  }
}

/** The sentence of a problem: where, what was expected, how to mend it. */
export function planProblemText(file: string, { line, column, at, expected, mend }: PlanProblem): string {
  const place = at === "" ? "" : ` "${at}":`;
  return `${file}, line ${line}, column ${column}:${place} ${expected}\n  ${mend}`;
}
