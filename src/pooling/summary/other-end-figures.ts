import type { Curve } from "../../statistics/index.js";
import { clusterIndex } from "../../statistics/shared/clusters.js";
import { influences, shareFunctional } from "../../statistics/survival/functionals.js";
import { preparedCause } from "../../statistics/survival/prepared-event.js";
import type { Columns } from "../../study/columns.js";
import { type JointFigureSet, jointFigures, type MovedFigure } from "./figures.js";
import { type Asked, placesOf, shareOfCurve, turned } from "./figures-by-days.js";

/** The shares that came to another end by each landmark, as cumulative incidences. */
export function figuresOfOtherEnd(
  { columns, curve, cause }: { readonly columns: Columns; readonly curve: Curve; readonly cause: number },
  asked: Asked,
): JointFigureSet {
  const prepared = preparedCause(columns.competing, { cause });
  const moved = placesOf(asked)
    .filter(({ measure }) => measure === "share_back")
    .map(
      ({ week, day }): MovedFigure => ({
        measure: "other_end",
        week,
        day,
        ...shareOfCurve(curve, { day, units: columns.units }),
        influences: turned(influences(prepared, shareFunctional(prepared, day))),
      }),
    );
  return jointFigures(moved, clusterIndex(columns.competing));
}
