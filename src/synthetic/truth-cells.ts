import { wholeDays } from "../cohort/whole-days.js";
import { seededGenerator } from "../statistics/shared/random.js";
import { chooseIndex } from "./chance.js";
import { drawCourse } from "./course.js";
import { gradeWeights, treatmentWeights } from "./injury.js";
import type { Scenario } from "./scenario.js";
import type { DrawnGrade } from "./scenario-grade.js";

/** A figure from a simulation, with its Monte Carlo standard error. */
export interface Simulated {
  readonly value: number;
  readonly standard_error: number;
}

/** What happens in one grade under one first treatment. */
export interface TruthCell {
  readonly grade: DrawnGrade;
  readonly treatment: "tape" | "ring" | "surgery";
  /** Share of all injuries of the scenario that are of this grade and first treated so. */
  readonly share_of_injuries: number;
  readonly landmarks: readonly {
    readonly week: number;
    readonly day: number;
    /** Share of all that are back by the day, those who gave up or ruptured anew before not back. */
    readonly returned: Simulated;
    /** Share that would be back by the day if nobody gave up or ruptured anew. */
    readonly returned_if_no_competing_end: Simulated;
    /** Share of all that are back by the day and have not ruptured anew by then. */
    readonly back_and_well: Simulated;
  }[];
  /** Mean days not yet back within the horizon, those who gave up or ruptured anew before not back. */
  readonly restricted_mean_days: Simulated;
  /** Day by which half of all are back; null where fewer ever are. */
  readonly median_days: number | null;
  /** The same two if nobody gave up or ruptured anew. */
  readonly if_no_competing_end: { readonly restricted_mean_days: Simulated; readonly median_days: number };
}

export interface CellOptions {
  readonly draws: number;
  readonly seed: number;
  readonly horizonDays: number;
  readonly landmarksWeeks: readonly number[];
}

/** How common a grade with a first treatment is, by site: the shares of all injuries, summing to 1 over everything. */
export function sharesBySite(
  scenario: Scenario,
  { grade, treatment }: Pick<TruthCell, "grade" | "treatment">,
): readonly number[] {
  const total = scenario.sites.reduce((sum, { share }) => sum + share, 0);
  return scenario.sites.map((site) => {
    const byGrade = gradeWeights(scenario, site);
    const byTreatment = treatmentWeights(scenario, { grade, site });
    return (site.share / total) * shareOf(byGrade, grade) * shareOf(byTreatment, treatment);
  });
}

const shareOf = <K extends string>(weights: Readonly<Record<K, number>>, term: K): number =>
  weights[term] / (Object.values(weights) as number[]).reduce((sum, weight) => sum + weight, 0);

/**
 * Simulates one grade under one first treatment. Sites occur as they do among the injuries of that grade first treated
 * with tape or ring (surgery: with surgery), so that ring and tape are compared over the same sites.
 *
 * Standard errors: of a share sqrt(p (1 - p) / n), of a mean the standard deviation over sqrt(n).
 */
export function simulateCell(
  {
    scenario,
    grade,
    treatment,
    stream,
  }: Pick<TruthCell, "grade" | "treatment"> & {
    readonly scenario: Scenario;
    readonly stream: number;
  },
  { draws, seed, horizonDays, landmarksWeeks }: CellOptions,
): TruthCell {
  const generator = seededGenerator(seed, stream);
  const sites = siteWeights(scenario, { grade, treatment });
  const full = new Float64Array(draws);
  const back = new Float64Array(draws);
  const ruptured = new Float64Array(draws);
  for (let draw = 0; draw < draws; draw++) {
    const site = scenario.sites[chooseIndex(sites, generator)]!;
    const unitExponential = -Math.log(generator.uniform());
    const course = drawCourse({ scenario, site, grade, treatment }, { generator, unitExponential });
    full[draw] = course.fullClimbing;
    const isBack = course.fullClimbing <= Math.min(course.gaveUp, course.newRupture);
    back[draw] = isBack ? course.fullClimbing : Number.POSITIVE_INFINITY;
    ruptured[draw] = course.newRupture;
  }
  const shareBy = (times: Float64Array, landmark: number) =>
    simulatedShare(times.filter((day) => day <= landmark).length, draws);
  const shareWell = (landmark: number) =>
    simulatedShare(back.filter((day, draw) => day <= landmark && ruptured[draw]! > landmark).length, draws);
  const meanOf = (times: Float64Array) => simulatedMean(times.map((day) => Math.min(day, horizonDays)));
  const medianOf = (times: Float64Array) => times.toSorted()[Math.ceil(draws / 2) - 1]!;
  const half = medianOf(back);
  return {
    grade,
    treatment,
    share_of_injuries: sharesBySite(scenario, { grade, treatment }).reduce((sum, part) => sum + part, 0),
    landmarks: landmarksWeeks.map((week) => {
      const landmark = wholeDays(week);
      return {
        week,
        day: landmark,
        returned: shareBy(back, landmark),
        returned_if_no_competing_end: shareBy(full, landmark),
        back_and_well: shareWell(landmark),
      };
    }),
    restricted_mean_days: meanOf(back),
    median_days: Number.isFinite(half) ? half : null,
    if_no_competing_end: { restricted_mean_days: meanOf(full), median_days: medianOf(full) },
  };
}

/** Sites among the injuries first treated with either of the compared treatments, or with surgery. */
function siteWeights(scenario: Scenario, cell: Pick<TruthCell, "grade" | "treatment">): readonly number[] {
  if (cell.treatment === "surgery") return sharesBySite(scenario, cell);
  const ring = sharesBySite(scenario, { ...cell, treatment: "ring" });
  const tape = sharesBySite(scenario, { ...cell, treatment: "tape" });
  return ring.map((share, i) => share + tape[i]!);
}

function simulatedShare(count: number, n: number): Simulated {
  const value = count / n;
  return { value, standard_error: Math.sqrt((value * (1 - value)) / n) };
}

function simulatedMean(values: Float64Array): Simulated {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { value: mean, standard_error: Math.sqrt(squares / (values.length - 1) / values.length) };
}
