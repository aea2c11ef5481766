import type { JointOutputs } from "../../statistics/survival/between-visits/joint-figures.js";
import type { Modelled } from "../../study/spans/model.js";
import {
  type FigurePlace,
  type JointFigureSet,
  matrixOf,
  missingFigure,
  type SiteFigure,
} from "./figures.js";
import { type Asked, placesOf } from "./figures-by-days.js";

/** The figures of one group under the model of spans, by its place among the groups; null where the model has none of it. */
export function spansOfGroup(
  { modelled, place }: { readonly modelled: Modelled; readonly place: number },
  asked: Asked,
): JointFigureSet | null {
  const joint = jointOf(modelled, asked);
  if (joint === null || typeof modelled.groups[place] === "string") return null;
  return setOf(joint.group(place), { asked, difference: false });
}

/** One group less another under the model of spans. */
export function spansDifference(
  {
    modelled,
    places,
  }: {
    readonly modelled: Modelled;
    readonly places: Readonly<Record<"compared" | "reference", number>>;
  },
  asked: Asked,
): JointFigureSet {
  const { compared, reference } = places;
  const silent = [modelled.groups[compared], modelled.groups[reference]].find(
    (one) => typeof one === "string",
  );
  const joint = jointOf(modelled, asked);
  if (joint === null || silent !== undefined) {
    const figures = placesOf(asked).map((place) =>
      missingFigure(
        { ...place, scale: scaleOf(place, true) },
        typeof silent === "string" ? silent : "not-converged",
      ),
    );
    return { figures, variance: figures.map(() => figures.map(() => null)) };
  }
  return setOf(joint.difference(compared, reference), { asked, difference: true });
}

const jointOf = (modelled: Modelled, { landmarks }: Asked) => modelled.joint(landmarks.map(({ day }) => day));

const scaleOf = ({ measure }: FigurePlace, difference: boolean) =>
  measure === "mean_days" ? "days" : difference ? "share" : "logit";

function setOf(
  { values, variances, reached }: JointOutputs,
  { asked, difference }: { readonly asked: Asked; readonly difference: boolean },
): JointFigureSet {
  const figures = placesOf(asked).map((place, i): SiteFigure => {
    const scale = scaleOf(place, difference);
    const [value, variance] = [values[i]!, variances[i]![i]!];
    if (!reached[i]) return missingFigure({ ...place, scale }, "beyond-follow-up");
    const scaled = onScale(scale, { value, variance });
    if (!Number.isFinite(value) || !(variance > 0) || scaled === null)
      return missingFigure({ ...place, scale }, "no-variance");
    return { ...place, scale, value, standardError: Math.sqrt(variance), ...scaled, reason: null };
  });
  return { figures, variance: matrixOf(figures, variances) };
}

/** A share of a model lies between 0 and 1, so that its logit is there; its variance by the delta method. */
function onScale(
  scale: SiteFigure["scale"],
  { value, variance }: { readonly value: number; readonly variance: number },
): { readonly estimate: number; readonly variance: number } | null {
  if (scale !== "logit") return { estimate: value, variance };
  const slope = value * (1 - value);
  if (!(slope > 0)) return null;
  return { estimate: Math.log(value / (1 - value)), variance: variance / (slope * slope) };
}
