import type { JointOutputs } from "../../statistics/survival/between-visits/joint-figures.js";
import type { ReasonCode } from "../../study/results-parts.js";
import type { Modelled } from "../../study/spans/model.js";
import {
  empiricalLogit,
  isAtTheEdge,
  type ScaledFigure,
  varianceAtTheEdge,
} from "../site-estimates/index.js";
import {
  type FigurePlace,
  type JointFigureSet,
  matrixOf,
  missingFigure,
  type SiteFigure,
} from "./figures.js";
import { type Asked, placesOf } from "./figures-by-days.js";

interface OfGroup {
  readonly modelled: Modelled;
  /** Its place among the groups of the model. */
  readonly place: number;
  /** Independent units: people, or injuries where nobody has several. */
  readonly units: number;
}

/** The figures of one group under the model of spans; null where the model has none of it. */
export function spansOfGroup({ modelled, place, units }: OfGroup, asked: Asked): JointFigureSet | null {
  const joint = jointOf(modelled, asked);
  if (joint === null || typeof modelled.groups[place] === "string") return null;
  const outputs = joint.group(place);
  return setOf(outputs, {
    asked,
    onScale: ({ measure }, i) => {
      const [value, variance] = [outputs.values[i]!, outputs.variances[i]![i]!];
      return measure === "mean_days"
        ? { scale: "days", estimate: value, variance }
        : { scale: "logit", ...logitOf({ share: value, size: units }, variance) };
    },
  });
}

/** By the delta method; at the edge, where the tail of a model is surer than its data, as of so many people. */
function logitOf(sized: { readonly share: number; readonly size: number }, variance: number): ScaledFigure {
  const { share } = sized;
  const slope = share * (1 - share);
  if (isAtTheEdge(sized)) return empiricalLogit({ ...sized, share: Math.min(1, Math.max(0, share)) })!;
  return { estimate: Math.log(share / (1 - share)), variance: variance / (slope * slope) };
}

interface OfPair {
  readonly modelled: Modelled;
  readonly places: Readonly<Record<"compared" | "reference", number>>;
  readonly units: Readonly<Record<"compared" | "reference", number>>;
}

/** One group less another under the model of spans. */
export function spansDifference({ modelled, places, units }: OfPair, asked: Asked): JointFigureSet {
  const sides = (["compared", "reference"] as const).map((side) => ({
    place: places[side],
    size: units[side],
  }));
  const silent = sides
    .map(({ place }) => modelled.groups[place])
    .find((one) => typeof one === "string" || one === undefined);
  const joint = jointOf(modelled, asked);
  if (joint === null || sides.some(({ place }) => typeof modelled.groups[place] === "string"))
    return noFigures(asked, typeof silent === "string" ? silent : "not-converged");
  const shares = sides.map(({ place, size }) => ({ size, values: joint.group(place).values }));
  const outputs = joint.difference(places.compared, places.reference);
  return setOf(outputs, {
    asked,
    onScale: ({ measure }, i) => {
      const [estimate, variance] = [outputs.values[i]!, outputs.variances[i]![i]!];
      if (measure === "mean_days") return { scale: "days", estimate, variance };
      const edge = shares.reduce(
        (sum, { size, values }) => sum + varianceAtTheEdge({ share: values[i]!, size }),
        0,
      );
      return { scale: "share", estimate, variance: variance + edge };
    },
  });
}

function noFigures(asked: Asked, reason: ReasonCode): JointFigureSet {
  const figures = placesOf(asked).map((place) =>
    missingFigure({ ...place, scale: place.measure === "mean_days" ? "days" : "share" }, reason),
  );
  return { figures, variance: figures.map(() => figures.map(() => null)) };
}

const jointOf = (modelled: Modelled, { landmarks }: Asked) => modelled.joint(landmarks.map(({ day }) => day));

function setOf(
  { values, variances, reached }: JointOutputs,
  {
    asked,
    onScale,
  }: {
    readonly asked: Asked;
    readonly onScale: (place: FigurePlace, i: number) => ScaledFigure & Pick<SiteFigure, "scale">;
  },
): JointFigureSet {
  const figures = placesOf(asked).map((place, i): SiteFigure => {
    const value = values[i]!;
    const { scale, estimate, variance } = onScale(place, i);
    if (!reached[i]) return missingFigure({ ...place, scale }, "beyond-follow-up");
    if (!Number.isFinite(value) || !Number.isFinite(estimate) || !(variance > 0))
      return missingFigure({ ...place, scale }, "no-variance");
    const standardError = Math.sqrt(variances[i]![i]!);
    return { ...place, scale, value, standardError, estimate, variance, reason: null };
  });
  return { figures, variance: matrixOf(figures, variances) };
}
