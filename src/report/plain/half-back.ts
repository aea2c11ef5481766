import type { Results } from "../../study/results.js";
import { adjustmentClause } from "../../words/adjustment.js";
import { isTold } from "../../words/counts.js";
import { intervalName } from "../../words/estimates.js";
import { plainNumber } from "../../words/numbers.js";
import { capital, listed } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { days } from "../../words/times.js";
import { limits } from "../../words/units.js";
import { adjustedCurvesTold, curvesTold, type Told } from "./story.js";

/**
 * When half of each group were back, first with like compared with like where that can be; and in which groups half were
 * not back in the time seen.
 */
export function halfBackSentences(results: Results): string[] {
  const adjusted = adjustedCurvesTold(results).flatMap(({ heldEqual, told }) =>
    told.every(isKnown)
      ? [`${capital(adjustmentClause(heldEqual))}, half were back ${listed(reachedBy(told, results))}.`]
      : [],
  );
  const told = curvesTold(results).filter(({ curve }) => isTold(curve.n, (n) => n > 1));
  const reached = reachedBy(told.filter(isKnown), results);
  const start = adjusted.length > 0 ? "Without adjustment, half" : "Half";
  const unknown = told.filter((one) => half(one)?.value === null);
  return [
    ...adjusted,
    ...(reached.length > 0 ? [`${start} were back ${listed(reached)}.`] : []),
    ...unknown.map(notReached),
  ];
}

const isKnown = (one: Told): boolean => half(one)?.value != null;

const reachedBy = (told: readonly Told[], results: Results): string[] =>
  told.map((one) => `by ${timeOf(one, results)} ${one.words.among}`);

const half = ({ curve }: Told) => curve.quantiles.find(({ share }) => share === 0.5)?.days;

function timeOf(told: Told, { plan }: Results): string {
  const { value, lower, upper } = half(told)!;
  const name = intervalName(plan.confidence_level);
  if (lower !== null && upper !== null)
    return days(value!, `${name} ${limits({ lower, upper }, "time")} days`);
  if (lower !== null) return days(value!, `${name} from ${plainNumber(lower, 0)} days, no upper limit`);
  if (upper !== null) return days(value!, `${name} up to ${plainNumber(upper, 0)} days`);
  return days(value!);
}

function notReached(told: Told): string {
  const { curve, words } = told;
  const reason = half(told)!.reason;
  if (reason === "not-reached" || reason === "no-events")
    return `${capital(words.among)}, half were not back by the last day of follow-up (${days(curve.last_day)}).`;
  return `${capital(words.among)}, the time by which half were back cannot be given: ${reasonWords(reason)}.`;
}
