import { type Curve, shareAt } from "../../statistics/index.js";
import { clusterIndex } from "../../statistics/shared/clusters.js";
import { influences, shareFunctional } from "../../statistics/survival/functionals.js";
import { preparedCause } from "../../statistics/survival/prepared-event.js";
import { sizedShare } from "../../statistics/survival/small-sample.js";
import type { Columns } from "../../study/columns.js";
import { empiricalLogit } from "../site-estimates/index.js";
import { type JointFigureSet, jointFigures, type MovedFigure } from "./figures.js";
import { type Asked, placesOf } from "./figures-by-days.js";

/** The shares that came to another end by each landmark, as cumulative incidences. */
export function figuresOfOtherEnd(
  { columns, curve, cause }: { readonly columns: Columns; readonly curve: Curve; readonly cause: number },
  asked: Asked,
): JointFigureSet {
  const prepared = preparedCause(columns.competing, { cause });
  const moved = placesOf(asked)
    .filter(({ measure }) => measure === "share_back")
    .map(({ week, day }): MovedFigure => {
      const share = shareAt(curve, day);
      const { returned: value, reason } = share;
      return {
        measure: "other_end",
        week,
        day,
        scale: "logit",
        value,
        reason,
        influences: influences(prepared, shareFunctional(prepared, day)).map((each) => -each),
        scaled: (variance) =>
          empiricalLogit(
            sizedShare({
              ...share,
              returned: value!,
              standardError: Math.sqrt(variance),
              n: curve.n,
              units: columns.units,
            }),
          ),
      };
    });
  return jointFigures(moved, clusterIndex(columns.competing));
}
