import { type Convention, conventionOf } from "./conventions.js";
import type { DataSet } from "./draw-sets.js";
import { type Figures, methods } from "./ours.js";
import type { Answer, Answers } from "./run-reference.js";

/** Agreement wanted: |ours - theirs| at most `relative` times the larger, or at most `absolute`. */
export interface Tolerance {
  readonly relative: number;
  readonly absolute: number;
}

const closedForm: Tolerance = { relative: 1e-9, absolute: 1e-13 };
const iterative: Tolerance = { relative: 1e-6, absolute: 1e-8 };

export const toleranceOf = (method: string): Tolerance =>
  method.startsWith("hazards") ? iterative : closedForm;

/** One method on one data set. */
export interface Verdict {
  readonly set: number;
  readonly method: string;
  readonly traits: string;
  /** `not asked`: the reference stopped with an error, as it does on the most degenerate sets. */
  readonly outcome: "passed" | "failed" | "not asked";
  readonly compared: number;
  readonly worst: { readonly figure: string; readonly difference: number };
  readonly conventions: readonly Convention[];
  readonly disagreements: readonly string[];
}

type Judged = Pick<Verdict, "compared" | "worst" | "conventions" | "disagreements">;

/** Relative difference; 0 within the absolute tolerance, infinite where only one side has the figure. */
function differenceOf(ours: number | null, theirs: number | null, { absolute }: Tolerance): number {
  if (ours === null && theirs === null) return 0;
  if (ours === null || theirs === null) return Number.POSITIVE_INFINITY;
  const gap = Math.abs(ours - theirs);
  return gap <= absolute ? 0 : gap / Math.max(Math.abs(ours), Math.abs(theirs));
}

function compareFigures(ours: Figures, theirs: Figures, tolerance: Tolerance): Judged {
  const conventions: Convention[] = [];
  const disagreements: string[] = [];
  let worst = { figure: "", difference: 0 };
  let compared = 0;
  for (const [figure, their] of theirs) {
    const our = ours.get(figure);
    if (our === undefined) continue;
    const difference = differenceOf(our, their, tolerance);
    const convention =
      difference > tolerance.relative
        ? conventionOf({ figure, ours: our, theirs: their, all: { ours, theirs } })
        : null;
    if (convention !== null) {
      conventions.push(convention);
      continue;
    }
    if (our !== null && their !== null) compared++;
    if (difference > worst.difference) worst = { figure, difference };
    if (difference > tolerance.relative) disagreements.push(`${figure}: ours ${our}, theirs ${their}`);
  }
  return { compared, worst, conventions, disagreements };
}

function verdictOf(data: DataSet, method: string, answer: Answer): Verdict {
  const ours = methods[method]!(data);
  const judged = compareFigures(ours, answer.figures, toleranceOf(method));
  const silent = answer.stopped !== null && judged.compared === 0;
  const outcome = judged.disagreements.length > 0 ? "failed" : silent ? "not asked" : "passed";
  return { set: data.set, method, traits: data.traits, outcome, ...judged };
}

/** Every method on every data set for which the reference gave an answer. */
export function judge(sets: readonly DataSet[], answers: Answers): readonly Verdict[] {
  return sets.flatMap((data) =>
    [...(answers.get(data.set) ?? [])].map(([method, answer]) => verdictOf(data, method, answer)),
  );
}
