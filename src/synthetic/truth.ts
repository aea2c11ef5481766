import { wholeDays } from "../cohort/whole-days.js";
import type { Scenario } from "./scenario.js";
import { type DrawnGrade, drawnGrades } from "./scenario-grade.js";
import { type Simulated, sharesBySite, simulateCell, type TruthCell } from "./truth-cells.js";

/** Ring less tape: shares at the landmarks, and mean days until full climbing within the horizon. */
export interface Contrast {
  readonly landmark_differences: readonly {
    readonly week: number;
    readonly day: number;
    readonly difference: Simulated;
  }[];
  readonly restricted_mean_difference_days: Simulated;
}

/** What a study of ring against tape would find in endless data of a scenario; the form of truth.json. */
export interface Truth {
  readonly format: "pulley-outcomes truth 1";
  readonly synthetic: "SYNTHETIC: true effects of an invented scenario, no finding about patients";
  readonly scenario: string;
  readonly milestone: "full_climbing";
  readonly clock: "injury";
  readonly compared: "ring";
  readonly reference: "tape";
  readonly horizon_days: number;
  readonly draws_per_cell: number;
  readonly seed: number;
  /** Ratio of the hazards against tape within a grade, exact: the scenario's own. */
  readonly conditional_hazard_ratio: {
    readonly ring: number;
    readonly surgery: number;
    readonly none: number;
  };
  /**
   * Mean change of the loaded distance under ring less that under tape, mm, before readings are kept above 0.3 mm and above
   * the one at rest; the scenario's own.
   */
  readonly distance_change_difference_mm: number;
  readonly cells: readonly TruthCell[];
  /**
   * Ring less tape within a grade; null where the grade lacks either. Its weight is the share of the grade among the injuries
   * first treated with ring or tape in the grades that have both. The target of a study that leaves grades out is the mean of
   * the remaining grades by these weights.
   */
  readonly by_grade: readonly {
    readonly grade: DrawnGrade;
    readonly weight: number;
    readonly contrast: Contrast | null;
  }[];
  /**
   * Ring less tape, the grades that have both standardised to their mix among the injuries first treated with either; null
   * where no grade has both.
   */
  readonly standardised: Contrast | null;
  /** Ring less tape without regard to grade: all ringed against all taped. Confounded. Null where an arm is empty. */
  readonly crude: Contrast | null;
}

export interface TruthOptions {
  /** Draws for each grade and treatment; default 200,000: standard errors of shares at most 0.0012. */
  readonly draws?: number;
  /** Seed of the simulation, apart from that of the cohort; default 20240229. */
  readonly seed?: number;
  /** Horizon of the restricted mean, weeks; default 26. */
  readonly horizonWeeks?: number;
  /** Landmarks, weeks; default 6, 8, 10, 13, 17, 26. */
  readonly landmarksWeeks?: readonly number[];
}

/**
 * The true effects of a scenario on the time from injury to full climbing, by simulation.
 *
 * Contrasts are sums of cell figures by fixed weights, and so are their variances: Var(sum w x) = sum w^2 Var(x), the cells
 * being drawn apart. Whoever gave up or ruptured anew before being back counts as not back, and nobody is lost; each cell
 * has also the share that would be back without such ends.
 *
 * Crude contrast: each arm is the mean over its own grade mix. Standardised contrast: both arms over the joint grade mix.
 *
 * @returns the form of truth.json
 */
export function trueEffects(scenario: Scenario, options: TruthOptions = {}): Truth {
  const {
    draws = 200_000,
    seed = 20_240_229,
    horizonWeeks = 26,
    landmarksWeeks = [6, 8, 10, 13, 17, 26],
  } = options;
  const horizonDays = wholeDays(horizonWeeks);
  const cells = occurring(scenario).map((cell, stream) =>
    simulateCell({ scenario, ...cell, stream }, { draws, seed, horizonDays, landmarksWeeks }),
  );
  const pairs = pairsOf(cells);
  const { hazard_ratio } = scenario.return;
  const { change_loaded_mm } = scenario.imaging;
  return {
    format: "pulley-outcomes truth 1",
    synthetic: "SYNTHETIC: true effects of an invented scenario, no finding about patients",
    scenario: scenario.name,
    milestone: "full_climbing",
    clock: "injury",
    compared: "ring",
    reference: "tape",
    horizon_days: horizonDays,
    draws_per_cell: draws,
    seed,
    conditional_hazard_ratio: hazard_ratio,
    distance_change_difference_mm: change_loaded_mm.ring - change_loaded_mm.tape,
    cells,
    by_grade: drawnGrades.map((grade) => byGrade(grade, pairs)),
    standardised: contrast(jointMix(pairs)),
    crude: contrast(ownMixes(cells)),
  };
}

/** The grades and treatments that the scenario gives a chance. */
function occurring(scenario: Scenario): Pick<TruthCell, "grade" | "treatment">[] {
  const all = drawnGrades.flatMap((grade) =>
    (["tape", "ring", "surgery"] as const).map((treatment) => ({ grade, treatment })),
  );
  return all.filter((cell) => sharesBySite(scenario, cell).some((share) => share > 0));
}

interface Pair {
  readonly grade: DrawnGrade;
  readonly ring: TruthCell;
  readonly tape: TruthCell;
}

interface Weighted {
  readonly cell: TruthCell;
  /** Positive for ring, negative for tape; each side sums to 1. */
  readonly weight: number;
}

function pairsOf(cells: readonly TruthCell[]): readonly Pair[] {
  return drawnGrades.flatMap((grade) => {
    const of = (treatment: string) =>
      cells.find((cell) => cell.grade === grade && cell.treatment === treatment);
    const [ring, tape] = [of("ring"), of("tape")];
    return ring && tape ? [{ grade, ring, tape }] : [];
  });
}

const pairShare = ({ ring, tape }: Pair): number => ring.share_of_injuries + tape.share_of_injuries;

/** Both arms over the grade mix of the injuries first treated with either. */
function jointMix(pairs: readonly Pair[]): Weighted[] {
  const total = pairs.reduce((sum, pair) => sum + pairShare(pair), 0);
  return pairs.flatMap((pair) => [
    { cell: pair.ring, weight: pairShare(pair) / total },
    { cell: pair.tape, weight: -pairShare(pair) / total },
  ]);
}

/** Each arm over its own grade mix; empty where an arm is. */
function ownMixes(cells: readonly TruthCell[]): Weighted[] {
  const [ring, tape] = [ownMix(cells, "ring"), ownMix(cells, "tape")];
  return ring.length > 0 && tape.length > 0 ? [...ring, ...tape] : [];
}

function ownMix(cells: readonly TruthCell[], treatment: "ring" | "tape"): Weighted[] {
  const arm = cells.filter((cell) => cell.treatment === treatment);
  const total = arm.reduce((sum, cell) => sum + cell.share_of_injuries, 0);
  const sign = treatment === "ring" ? 1 : -1;
  return arm.map((cell) => ({ cell, weight: (sign * cell.share_of_injuries) / total }));
}

function byGrade(grade: DrawnGrade, pairs: readonly Pair[]): Truth["by_grade"][number] {
  const pair = pairs.find((each) => each.grade === grade);
  if (pair === undefined) return { grade, weight: 0, contrast: null };
  const weight = pairShare(pair) / pairs.reduce((sum, each) => sum + pairShare(each), 0);
  return { grade, weight, contrast: contrast(jointMix([pair])) };
}

function contrast(weighted: readonly Weighted[]): Contrast | null {
  const landmarks = weighted[0]?.cell.landmarks;
  if (landmarks === undefined) return null;
  return {
    landmark_differences: landmarks.map(({ week, day }, i) => ({
      week,
      day,
      difference: weightedSum(weighted, (cell) => cell.landmarks[i]!.returned),
    })),
    restricted_mean_difference_days: weightedSum(weighted, (cell) => cell.restricted_mean_days),
  };
}

function weightedSum(weighted: readonly Weighted[], of: (cell: TruthCell) => Simulated): Simulated {
  const sum = (term: (each: Weighted) => number) => weighted.reduce((total, each) => total + term(each), 0);
  return {
    value: sum(({ cell, weight }) => weight * of(cell).value),
    standard_error: Math.sqrt(sum(({ cell, weight }) => (weight * of(cell).standard_error) ** 2)),
  };
}
