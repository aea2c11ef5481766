import { changesByDeletion } from "../../hazards/clusters/deleted-clusters.js";
import { sumsWithin } from "../../hazards/fit/sandwich.js";
import { scoreResiduals } from "../../hazards/fit/score-residuals.js";
import { checkHazardColumns } from "../../hazards/layout/check-columns.js";
import { layOut } from "../../hazards/layout/layout.js";
import { type HazardColumns, hazardColumnsNames } from "../../hazards/layout/sorted-rows.js";
import { moveTo } from "../../hazards/likelihood/move-state.js";
import { emptyState } from "../../hazards/likelihood/risk-state.js";
import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";
import { ArgumentError, checkColumn } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
import { checkColumnNames, list, needed, type OptionsOf, readOptions } from "../../shared/options.js";
import { hazardsAtTies } from "./hazards-at.js";
import { checkPoint, noNumberThere } from "./site-sums.js";

const deletionsAtOptions = {
  ...hazardsAtTies,
  /** The coefficients at the maximum, in the covariates' own units. */
  point: needed(list<ArrayLike<number>>()),
  /** Score of the rows of all sites there. */
  score: needed(list<ArrayLike<number>>()),
  /** Information of the rows of all sites there, by rows. */
  information: needed(list<readonly ArrayLike<number>[]>()),
};

export interface DeletionsAtOptions extends OptionsOf<typeof deletionsAtOptions> {}

/**
 * What a site adds to the covariance of the coefficients of all sites that holds with few people: half the sum over its people of a d' + d a',
 * a a person's influence (the inverse information of all sites times the person's score) and d the change of the coefficients by one Newton step
 * when the person's rows are gone from all. Summed over sites it is the covariance of clusteredHazardRatios on all rows, the sites as strata.
 *
 * @param columns as for hazardsRegression; people by `clusters`, each row another person where they are left out
 * @returns by rows, symmetric; null where there are too many rows to go through, or where the information of all sites is singular
 * @throws ArgumentError naming the column and index of a value at fault, or the option; `point` where it is so far away that a sum is no number
 * @source influence: Lin & Wei 1989, J Am Stat Assoc 84:1074; deletion: Lipsitz, Dear & Zhao 1994, Biometrics 50:842
 */
export function deletionsAt(columns: HazardColumns, options: DeletionsAtOptions): number[][] | null {
  checkColumnNames(hazardColumnsNames, { columns });
  const { point, ties, score, information } = readOptions(deletionsAtOptions, options);
  checkHazardColumns(columns);
  const layout = layOut(columns);
  const { scale, size } = layout;
  checkPoint(point, size);
  checkAll({ score, information }, size);
  const factor = factorSymmetric(Float64Array.from(information.flatMap((row) => Array.from(row))), {
    size,
    tolerance: 1e-12,
  });
  if (factor.kept.length < size) return null;
  const covariance = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  if (layout.eventWeight === 0) return covariance;
  const state = emptyState(layout, { ties });
  moveTo(
    state,
    scale.map((unit, j) => unit * point[j]!),
    new Float64Array(size),
  );
  const people = clusterIndex(columns);
  const scores = sumsWithin(
    scoreResiduals(state),
    { of: Int32Array.from(layout.row, (row) => people.of[row]!), count: people.count },
    layout.weight,
  );
  const changes = changesByDeletion(columns, {
    kept: Array.from(scale, (_, j) => j),
    coefficients: Array.from(point),
    ties,
    all: { score, information: information.flatMap((row) => Array.from(row)) },
  });
  if (changes === null) return null;
  changes.forEach((change, person) => {
    const own = Float64Array.from(scale, (unit, j) => scores[j]![person]! * unit);
    const influence = solveFactored(factor, own);
    // what is left without this person estimates nothing: the influence takes the place of the change
    const moved = change ?? influence;
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++)
        covariance[j]![k]! += (influence[j]! * moved[k]! + influence[k]! * moved[j]!) / 2;
  });
  if (covariance.flat().every(Number.isFinite)) return covariance;
  throw noNumberThere();
}

function checkAll(
  { score, information }: Pick<DeletionsAtOptions, "score" | "information">,
  size: number,
): void {
  checkColumn({ name: "score", values: score }, "finite");
  information.forEach((values, j) => void checkColumn({ name: `information[${j}]`, values }, "finite"));
  const isSquare = information.length === size && information.every((row) => row.length === size);
  if (score.length === size && isSquare) return;
  throw new ArgumentError({
    argument: score.length === size ? "information" : "score",
    index: null,
    expected: `of as many parameters as there are covariates (${size})`,
    found: `${score.length === size ? information.length : score.length} values`,
  });
}
