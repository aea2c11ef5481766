import { isCompeting, type OutcomeRecord } from "../../cohort/record.js";
import { personsAmong } from "../columns.js";
import type { ExactCurve, ExactFamily } from "../exact-results.js";
import type { Group } from "../groups.js";
import type { FamilyModel } from "../results-curves.js";
import type { Specification } from "../specification.js";
import { curveFromSpans } from "./curves.js";
import type { Modelled, ModelledGroup } from "./model.js";
import type { AdjustedSpans } from "./pair.js";

type Asked = Pick<Specification, "landmarks" | "horizonDay" | "level" | "shareBack"> & {
  readonly entry: ExactFamily["entry"];
};

/** The curves of a pair with what the study holds equal set alike, under the model of spans; none where the model has no figures. */
export function adjustedSpansFamily(
  {
    compared,
    reference,
    adjusted,
  }: { readonly compared: Group; readonly reference: Group; readonly adjusted: AdjustedSpans },
  { entry, ...asked }: Asked,
): ExactFamily[] {
  const { model, records, fields, strata } = adjusted;
  if (model.groups.some((group) => typeof group === "string")) return [];
  const days = Array.from({ length: Math.floor(asked.horizonDay / 7) + 1 }, (_, week) => 7 * week);
  const sides = [
    { group: compared, records: records.compared, modelled: model.groups[0]! },
    { group: reference, records: records.reference, modelled: model.groups[1]! },
  ];
  return [
    {
      family: "standardised",
      entry,
      held_equal: [...fields],
      strata_used: [...strata],
      model: withTimeRatios(model, {
        labels: sides.map(({ group }) => group.label),
        reference: reference.label,
      }),
      curves: sides.map((side) => curveOf(side, { ...asked, days })),
    },
  ];
}

/** The model as it is told, with the ratio of times of each other group to the reference. */
export function withTimeRatios(
  { model, timeRatio }: Modelled,
  { labels, reference }: { readonly labels: readonly string[]; readonly reference: string },
): FamilyModel {
  const place = labels.indexOf(reference);
  return {
    ...model,
    time_ratios: labels.flatMap((compared, i) => {
      const found = place < 0 || i === place ? null : timeRatio(i, place);
      return found === null ? [] : [{ compared, reference, ...found }];
    }),
  };
}

interface Side {
  readonly group: Group;
  readonly records: readonly OutcomeRecord[];
  readonly modelled: ModelledGroup;
}

function curveOf(
  { group, records, modelled }: Side,
  asked: Parameters<typeof curveFromSpans>[1],
): ExactCurve {
  const { label } = group;
  return {
    id: `standardised:${label}`,
    family: "standardised",
    label,
    n: records.length,
    events: records.filter(({ end }) => end === "milestone").length,
    competing: records.filter(({ end }) => isCompeting(end)).length,
    persons: personsAmong(records),
    last_day: asked.horizonDay,
    ...withinHorizon(curveFromSpans({ ...group, records, modelled }, asked), asked),
    other_ends: [],
    // the data alone hold nothing equal, so that they are not to be set beside curves that do
    alone: null,
    falls_early: false,
  };
}

const withinHorizon = <Curve extends Pick<ExactCurve, "points">>(
  curve: Curve,
  { horizonDay }: Pick<Asked, "horizonDay">,
): Curve => ({
  ...curve,
  points: curve.points.filter(({ day }) => day <= horizonDay),
});
