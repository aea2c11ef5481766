import type { Truth } from "../../../src/synthetic/index.js";
import type { Finding } from "../tally.js";
import type { Drawn } from "./draw-study.js";
import { curveOf, printed } from "./read-off.js";

/** Shares of everyone back at the landmarks, the day by which half of all were back, and the mean time, of a study without a comparison. */
export function oneArmFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  const curve = curveOf(drawn, "all");
  const cell = truth.cells[0]!;
  const shares = curve.landmarks.map(({ week, returned }, at) => {
    const { value } = cell.landmarks[at]!.returned;
    return printed(`share back, week ${week} (true ${value.toFixed(2)})`, returned, value);
  });
  return [
    ...shares,
    printed("day by which half were back", halfBack(drawn), cell.median_days!),
    printed("mean days until back", curve.restricted_mean.days, cell.restricted_mean_days.value),
  ];
}

/** The same of a study that asks what would be if nobody came to another end. */
export function suppositionFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  const curve = curveOf(drawn, "all");
  const cell = truth.cells[0]!;
  const shares = curve.landmarks.map(({ week, returned }, at) => {
    const { value } = cell.landmarks[at]!.returned_if_no_competing_end;
    return printed(
      `share back if nobody came to another end, week ${week} (true ${value.toFixed(2)})`,
      returned,
      value,
    );
  });
  const { median_days, restricted_mean_days } = cell.if_no_competing_end;
  return [
    ...shares,
    printed("day by which half would be back if nobody came to another end", halfBack(drawn), median_days),
    printed(
      "mean days if nobody came to another end",
      curve.restricted_mean.days,
      restricted_mean_days.value,
    ),
  ];
}

const halfBack = (drawn: Drawn) => curveOf(drawn, "all").quantiles.find(({ share }) => share === 0.5)!.days;
