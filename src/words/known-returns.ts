import { counted } from "../schema/counted.js";
import type { Plan } from "../study/plan.js";
import type { CurveFamily, CurveResult, KnownReturns } from "../study/results.js";
import { isTold } from "./counts.js";
import { familyTitles } from "./curve-families.js";
import { intervalName, intervalWords, valueWords } from "./estimates.js";
import { groupWords } from "./group-phrases.js";
import { plainNumber, pValue } from "./numbers.js";
import { listed } from "./phrases.js";
import { reasonWords } from "./reasons.js";
import { fieldWords } from "./terms.js";
import { digitsOf } from "./units.js";

type Law = NonNullable<CurveFamily["model"]>["laws"][number]["law"];

/** Laws of the time to a return. */
export const lawWords: Readonly<Record<Law, string>> = {
  exponential: "exponential",
  weibull: "Weibull",
  "log-normal": "log-normal",
  "log-logistic": "log-logistic",
  "generalised-gamma": "generalised gamma",
};

/** Of how many returns the day is known, of everybody. */
export function knownWords({ groups }: KnownReturns): string {
  const all = groups.find(({ family }) => family === "all");
  if (all === undefined || isTold(all.n, (n) => n === 0)) return "No return was observed.";
  return `Of ${all.n} observed returns, ${all.to_the_day} are known to the day, ${all.narrow} to a span of at most 14 days and ${all.wide} to a wider span${all.mean_wide_days === null ? "" : ` (the wide spans come to ${plainNumber(all.mean_wide_days, 1)} days a return)`}.`;
}

/** Which way the figures of the return took, and why. */
export function pathWords(known: KnownReturns): string {
  const { path, because } = known;
  if (because.includes("asked"))
    return path === "spans"
      ? "As the study file asks, returns stay between the days between which they are known to lie, and the figures are estimated by a model."
      : "As the study file asks, each return is placed on one day.";
  if (because.includes("few_wide"))
    return "So few spans are wide that each return is placed on one day: the rule asks for more than 3 in 10 wider than 14 days, or for more than 15 days of wide spans a return.";
  const reasons = [
    ...(because.includes("wide_share")
      ? ["more than 3 in 10 returns are known to a span wider than 14 days only"]
      : []),
    ...(because.includes("wide_days") ? ["the wide spans come to more than 15 days a return"] : []),
  ];
  const open = pointsOf(known.most_open);
  const moved = pointsOf(known.most_moved);
  return [
    `Returns stay between the days between which they are known to lie, and the figures are estimated by a model, as ${listed(reasons)}.`,
    ...(open === null || moved === null
      ? []
      : [
          `The spans alone leave up to ${open} of a share at a landmark open; with each return on one day a share would lie up to ${moved} outside of what they leave open.`,
        ]),
  ].join(" ");
}

/** "8 percentage points"; null where it is not told. */
function pointsOf(part: number | null): string | null {
  if (part === null) return null;
  const digits = digitsOf(part, { unit: "percentage points" });
  // what is less than half a point is at most one, and not none
  const points = part > 0 ? Math.max(1, Number(digits)) : Number(digits);
  return counted(points, "percentage point", "percentage points");
}

/** Before the sentences of a report whose figures come from a model. */
export const estimatedFromSpans = ({ groups }: KnownReturns): string => {
  const all = groups.find(({ family }) => family === "all");
  const count = all === undefined ? "" : ` (${all.to_the_day} of ${all.n} to the day)`;
  return `Most figures below are estimated by a model, as returns are known only between two days, mostly between two visits${count}.`;
};

/** The model of a family of curves, with the AIC of each law. */
export function modelWords(model: NonNullable<CurveFamily["model"]>): string {
  const { law, form, laws, other_ends } = model;
  if (law === null) return "The model of the times to a return has no estimates here.";
  const tried = laws.map(
    ({ law: one, aic }) => `${lawWords[one]} ${aic === null ? "no estimate" : plainNumber(aic, 1)}`,
  );
  const groups = form === "by-group" ? ", each group with a spread of its own" : "";
  const others = other_ends.filter((one) => one.law !== null).map(({ law: one }) => lawWords[one!]);
  return `Curves by an accelerated model, ${lawWords[law]} law${groups}; AIC with the groups together: ${tried.join(", ")}${others.length > 0 ? `; other ends: ${listed([...new Set(others)])} law` : ""}.`;
}

/** By what times are multiplied, in a sentence a pair; where the model has no single ratio, why. */
export function timeRatioWords(
  { model, family, held_equal }: CurveFamily,
  { confidence_level, compare }: Plan,
): string {
  if (model === null || model.law === null || (family !== "compared" && family !== "standardised")) return "";
  if (model.form === "by-group")
    return "No single ratio describes the times, since each group has a spread of its own.";
  const held = held_equal.length === 0 ? "" : `, adjusted for ${listed(fieldWords(held_equal))}`;
  return model.time_ratios
    .map(({ compared, reference, ratio, p }) => {
      const [one, other] = [compared, reference].map((label) => groupWords({ by: compare.by, label }).among);
      return ratio.value === null
        ? `A ratio of the times ${one} to those ${other} cannot be given: ${reasonWords(ratio.reason)}.`
        : `As if no other end came${held}, times to a return were ${valueWords(ratio, "ratio")} times as long ${one} as ${other} (${intervalName(confidence_level)} ${intervalWords(ratio, "ratio")}${p === null ? "" : `; p ${pValue(p).replace(/^(?=\d)/, "= ")}`}).`;
    })
    .join(" ");
}

/** Which law was chosen for each family of curves, and by which AIC. */
export const lawsChosen = (families: readonly CurveFamily[]): string =>
  families
    .flatMap(({ family, model }) =>
      model === null || model.law === null
        ? []
        : [
            `${familyTitles[family].toLowerCase()}: ${lawWords[model.law]}${model.aic === null ? "" : `, AIC ${plainNumber(model.aic, 1)}`}`,
          ],
    )
    .join("; ");

/** Beneath shares by a model. */
export const aloneNote =
  "Without a model: between these two the share lies by the estimate from the spans alone (innermost intervals). It takes no shape for granted, but can lean on a handful of visits.";

/** Boxes of more curves than this would hide one another in a figure. */
export const mostBoxes = 3;

/** Beneath curves of a model. */
export const spanNote = (curves: readonly Pick<CurveResult, "alone">[]): string =>
  `Estimated by a model, as returns are known only between two days.${
    curves.length <= mostBoxes && curves.some(({ alone }) => alone !== null)
      ? " Boxes: the estimate without a model, which may run anywhere within them."
      : ""
  }`;
