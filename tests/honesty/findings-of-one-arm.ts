import type { Truth } from "../../src/synthetic/index.js";
import type { Drawn } from "./draw-study.js";
import { curveOf, printed, shareByScore, sharesOtherwise } from "./read-off.js";
import type { Finding } from "./tally.js";

/** Share back at landmarks, median and restricted mean of everybody. */
export function oneArmFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  const curve = curveOf(drawn, "all");
  const cell = truth.cells[0]!;
  const clusters = curve.persons < curve.n ? curve.persons : undefined;
  const shares = curve.landmarks.flatMap((landmark, at): readonly Finding[] => {
    const { week, day } = landmark;
    const { returned } = cell.landmarks[at]!;
    const name = `share back, week ${week}`;
    const main = week === 8 || week === 13;
    const byScore = week === 8 || week === 13 || week === 17;
    return [
      printed(`${name} (true ${returned.value.toFixed(2)})`, landmark.returned, returned.value),
      ...(byScore
        ? [printed(`${name}; score limits instead`, shareByScore(curve, day), returned.value)]
        : []),
      ...(main ? otherScales(name, { curve, day, truth: returned.value, clusters }) : []),
    ];
  });
  return [
    ...shares,
    printed("median days", curve.quantiles.find(({ share }) => share === 0.5)!.days, cell.median_days!),
    printed("restricted mean days", curve.restricted_mean.days, cell.restricted_mean_days.value),
  ];
}

/** What other intervals would have held, beside the one that is printed. */
function otherScales(
  name: string,
  at: {
    readonly curve: Parameters<typeof sharesOtherwise>[0];
    readonly day: number;
    readonly truth: number;
    readonly clusters: number | undefined;
  },
): readonly Finding[] {
  const { curve, day, truth, clusters } = at;
  const scales = (["plain", "logit", "arcsine"] as const).map((scale) =>
    printed(`${name}; ${scale} scale instead`, sharesOtherwise(curve, day, { scale }), truth),
  );
  if (clusters === undefined) return scales;
  const student = sharesOtherwise(curve, day, { scale: "log-log", clusters });
  return [...scales, printed(`${name}; Student's t over persons instead`, student, truth)];
}
