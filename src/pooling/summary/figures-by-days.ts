import { causeOf } from "../../cohort/columns.js";
import { type Curve, shareAt } from "../../statistics/index.js";
import { clusterIndex } from "../../statistics/shared/clusters.js";
import {
  areaFunctional,
  type Functional,
  influences,
  shareFunctional,
} from "../../statistics/survival/functionals.js";
import { type PreparedEvent, preparedCause } from "../../statistics/survival/prepared-event.js";
import { sizedShare } from "../../statistics/survival/small-sample.js";
import { columnsOf, countedFor } from "../../study/columns.js";
import type { Group } from "../../study/groups.js";
import type { Pair } from "../../study/pairs.js";
import type { Specification } from "../../study/specification.js";
import { empiricalLogit, varianceAtTheEdge } from "../site-estimates/index.js";
import {
  type FigurePlace,
  forSmallSamples,
  type JointFigureSet,
  jointFigures,
  type MovedFigure,
} from "./figures.js";

export type Asked = Pick<Specification, "landmarks" | "horizonDay" | "level" | "shareBack" | "comparison">;

/** Where figures are read: the share back at each landmark, and the mean days up to the horizon. */
export const placesOf = ({
  landmarks,
  horizonDay,
}: Pick<Asked, "landmarks" | "horizonDay">): FigurePlace[] => [
  ...landmarks.map(({ week, day }) => ({ measure: "share_back" as const, week, day })),
  { measure: "mean_days", week: null, day: horizonDay },
];

/** Less is back where the share without the return is more. */
export const turned = (column: Float64Array): Float64Array => column.map((value) => -value);

const functionalAt = (prepared: PreparedEvent, { measure, day }: FigurePlace): Functional =>
  measure === "share_back" ? shareFunctional(prepared, day) : areaFunctional(prepared, day);

/** The figures of a group whose returns each stand on a day. */
export function figuresOfGroup(group: Group, asked: Asked): JointFigureSet {
  const counted = countedFor(group.columns, asked.shareBack);
  const prepared = preparedCause(counted, { cause: causeOf("milestone") });
  const moved = placesOf(asked).map((place) => movedOf(group, { prepared, place }));
  return jointFigures(moved, clusterIndex(counted));
}

interface At {
  readonly prepared: PreparedEvent;
  readonly place: FigurePlace;
}

function movedOf(group: Group, at: At): MovedFigure {
  const { prepared, place } = at;
  const found =
    place.measure === "share_back"
      ? shareOfCurve(group.curve, { day: place.day, units: group.curve.units })
      : meanMoved(group);
  if (found.value === null) return { ...place, ...found, influences: new Float64Array(prepared.riskSets.n) };
  const own = influences(prepared, functionalAt(prepared, place));
  return { ...place, ...found, influences: place.measure === "share_back" ? turned(own) : own };
}

type OfFigure = Pick<MovedFigure, "scale" | "value" | "reason" | "scaled">;

/** A share at a day on the scale of pooling; `units` are the people behind it. */
export function shareOfCurve(
  curve: Curve,
  { day, units }: { readonly day: number; readonly units: number },
): OfFigure {
  const share = shareAt(curve, day);
  const { returned: value, reason } = share;
  return {
    scale: "logit",
    value,
    reason,
    scaled: (variance) =>
      empiricalLogit(
        sizedShare({
          ...share,
          returned: value!,
          standardError: Math.sqrt(variance),
          n: curve.n,
          units,
        }),
      ),
  };
}

function meanMoved(group: Group): OfFigure {
  const { estimate, beyondFollowUp, reason } = group.restrictedMean();
  const value = beyondFollowUp ? null : estimate;
  return {
    scale: "days",
    value,
    reason: beyondFollowUp ? "beyond-follow-up" : value === null ? reason : null,
    scaled: (variance) =>
      scaledBy(value!, forSmallSamples(variance, { units: group.columns.units, curves: 1 })),
  };
}

const scaledBy = (estimate: number, variance: number | null) =>
  variance === null ? null : { estimate, variance };

/** The difference of two groups as they are, compared less reference; somebody with an injury in each counts once. */
export function crudeDifference({ compared, reference, clustered }: Pair, asked: Asked): JointFigureSet {
  const both = columnsOf([...compared.records, ...reference.records], { clustered });
  const sides = [compared, reference].map((group) => ({
    group,
    prepared: preparedCause(countedFor(group.columns, asked.shareBack), { cause: causeOf("milestone") }),
  }));
  const moved = placesOf(asked).map((place): MovedFigure => {
    const [one, other] = sides.map(({ group, prepared }) => movedOf(group, { prepared, place }));
    const value = one!.value === null || other!.value === null ? null : one!.value - other!.value;
    const edge = sides.reduce((sum, { group }) => sum + edgeOfGroup(group, place), 0);
    return {
      ...place,
      scale: place.measure === "share_back" ? "share" : "days",
      value,
      reason: one!.reason ?? other!.reason,
      influences: Float64Array.from([...one!.influences, ...turned(other!.influences)]),
      scaled: (variance) =>
        value === null
          ? null
          : scaledBy(value, forSmallSamples(variance + edge, { units: both.units, curves: 2 })),
    };
  });
  return jointFigures(moved, clusterIndex(both.timeToEvent));
}

/** What is added to the variance of a difference for a group in which nobody, or everybody, is back. */
function edgeOfGroup({ curve }: Group, { measure, day }: FigurePlace): number {
  if (measure !== "share_back") return 0;
  const share = shareAt(curve, day);
  if (share.returned === null) return 0;
  return varianceAtTheEdge(
    sizedShare({ ...share, returned: share.returned, n: curve.n, units: curve.units }),
  );
}
