import { patternsOf } from "./patterns.js";
import { groupOutputs, knotsFor } from "./standardised-outputs.js";
import { reachOf, spreadOf, type VisitModels } from "./visit-models.js";
import { covariancesOf } from "./visit-variances.js";

/** Shares at the times asked for, then the mean time without the end up to the horizon, with their variance matrix. */
export interface JointOutputs {
  readonly values: readonly number[];
  /** With the factor units / (units - parameters). */
  readonly variances: readonly (readonly number[])[];
  /** Whether the data reach each time; the last stands for the horizon. */
  readonly reached: readonly boolean[];
}

/** What models fitted to groups say of them, and of one less another, by their places. */
export interface JointFigures {
  readonly group: (place: number) => JointOutputs;
  readonly difference: (compared: number, reference: number) => JointOutputs;
}

/**
 * Figures of incidenceBetweenVisits at several times together: the variance matrix by the delta method from the models' covariance, or from
 * their scores summed within clusters.
 *
 * @param prepared models that have estimates
 * @param asked times above 0
 * @returns null where the models have no estimates, or there are no more units than parameters
 * @source as for incidenceBetweenVisits
 */
export function jointUnder(
  prepared: VisitModels,
  { times }: { readonly times: readonly number[] },
): JointFigures | null {
  const { visits, models, end, horizon, reason } = prepared;
  const { units, parameters } = spreadOf(prepared)(0);
  if (reason !== null || units <= parameters) return null;
  const own = models.findIndex((model) => model.end === end);
  const { patterns, of: patternOf } = patternsOf(visits);
  const knots = knotsFor(times, horizon);
  const size = times.length + 1;
  const factor = units / (units - parameters);
  const computed = visits.groups.map((_, group) => groupOutputs(patterns, { models, own, group, knots }));
  const placeOf = (group: number) => visits.groups.indexOf(group);
  const reachedBy = (place: number) => [...times, horizon].map((time) => time <= reachOf(visits, place));
  const joint = (parts: Parameters<typeof covariancesOf>[0]) =>
    covariancesOf(parts, { visits, patternOf, size }).map((row) => row.map((value) => factor * value));
  const valuesOf = (place: number) => Array.from(computed[place]!.outputs.subarray(0, size));
  return {
    group: (group) => {
      const place = placeOf(group);
      return {
        values: valuesOf(place),
        variances: joint([{ sign: 1, of: computed[place]! }]),
        reached: reachedBy(place),
      };
    },
    difference: (compared, reference) => {
      const [one, other] = [placeOf(compared), placeOf(reference)];
      const [a, b] = [valuesOf(one), valuesOf(other)];
      const [near, far] = [reachedBy(one), reachedBy(other)];
      return {
        values: a.map((value, o) => value - b[o]!),
        variances: joint([
          { sign: 1, of: computed[one]! },
          { sign: -1, of: computed[other]! },
        ]),
        reached: near.map((reached, o) => reached && far[o]!),
      };
    },
  };
}
