import { type MeasureFacts, type MeasureKey, measureKeys, measureOf } from "../study/measures/index.js";
import { capital, listed } from "./phrases.js";

const nouns: Readonly<Record<MeasureKey, string>> = {
  landmark_difference: "a difference in shares",
  restricted_mean_difference: "a difference in mean time",
  hazard_ratio: "a ratio",
  distance_change_difference: "a difference in the change of the distance",
};

const noDifference: Readonly<Record<MeasureFacts["scale"], string>> = { difference: "zero", ratio: "one" };

/**
 * What a value above no difference means, for the measures of the return among some: "A ratio above one means an earlier
 * return in the compared group."
 */
export function directionSentence(shown: readonly MeasureKey[]): string {
  const told = measureKeys.filter((key) => shown.includes(key) && measureOf(key).outcome === "return");
  const those = (above: MeasureFacts["above"]) =>
    told
      .filter((key) => measureOf(key).above === above)
      .map((key) => `${nouns[key]} above ${noDifference[measureOf(key).scale]}`);
  const [earlier, later] = [those("better"), those("worse")];
  const clause = (subjects: readonly string[], what: string) =>
    subjects.length === 0 ? [] : [`${listed(subjects)} ${subjects.length === 1 ? "means" : "mean"} ${what}`];
  const group = "return in the compared group";
  return `${capital(
    [
      ...clause(earlier, `an earlier ${group}`),
      ...clause(later, `a later ${earlier.length > 0 ? "one" : group}`),
    ].join("; "),
  )}.`;
}
