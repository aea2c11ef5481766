import type { Plan } from "../study/plan.js";
import type { Count, CurveFamily, CurveResult } from "../study/results.js";
import { backOf, isSome, sumOf } from "./counts.js";
import { namesOf } from "./curve-scene.js";
import { drawnText } from "./group-names.js";
import { estimateWords, looks, weeksEstimateWords, weekWords } from "./numbers.js";
import type { PageText } from "./page.js";
import type { ReturnCurveData } from "./return-curve-data.js";
import { windowOf } from "./usual-windows.js";
import { caution, clockWords, counted, fieldWords, levelWords, milestoneWords } from "./words.js";

export const shareTitle = (plan: Plan): string =>
  `share back ${plan.question.milestone === "previous_level" ? "at" : "to"} ${milestoneWords(plan)}`;
export const timeTitle = (plan: Plan): string => `weeks since ${clockWords(plan)}`;

/** Title, subtitle, text alternative and notes of a figure of return curves. */
export function curveText({ family, plan, onlyGrade }: ReturnCurveData): PageText {
  const title = `How long until ${milestoneWords(plan)}${familyWords(family, plan)}?`;
  const subtitle = subtitleOf(family, plan);
  return {
    id: idOf(family, plan),
    title,
    subtitle,
    description: [
      `${title} ${subtitle}. The ${shareTitle(plan)} by ${timeTitle(plan)}.`,
      ...family.curves.map((curve) => curveWords(curve, plan)),
    ].join(" "),
    notes: notesOf({ family, plan, ...(onlyGrade === undefined ? {} : { onlyGrade }) }),
    synthetic: plan.synthetic,
    individual: false,
  };
}

/**
 * Safe as a file name, and different for each pair of groups like for like: a pair has the number of its group among
 * those compared, since a name of a group may be anything.
 */
function idOf({ family, curves }: CurveFamily, { compare }: Plan): string {
  const place = compare.groups.indexOf(curves[0]?.label ?? "") + 1;
  return `return-curve-${family}${family === "standardised" ? `-${place}` : ""}`;
}

const familyWords = ({ family, held_equal }: CurveFamily, plan: Plan): string => {
  if (family === "all") return "";
  if (family === "standardised")
    return `, by ${fieldWords(plan.compare.by)}, at equal ${held_equal.map(fieldWords).join(" and ")}`;
  return family === "grade" ? ", by grade" : `, by ${fieldWords(plan.compare.by)}`;
};

const total = (curves: readonly CurveResult[], count: (curve: CurveResult) => Count): Count =>
  sumOf(curves.map(count));

function subtitleOf({ curves }: CurveFamily, plan: Plan): string {
  const injuries = counted(
    total(curves, ({ n }) => n),
    "injury",
    "injuries",
  );
  const back = total(curves, ({ events }) => events);
  return `${injuries}, ${backOf(back)}; shaded: ${levelWords(plan.confidence_level)} interval`;
}

function notesOf({ family, plan, onlyGrade }: ReturnCurveData): string[] {
  if (family.curves.length === 0) return [caution];
  const competing = total(family.curves, (curve) => curve.competing);
  const windows =
    family.curves.some(({ label }) => family.family === "grade" && windowOf(label, plan)) ||
    windowOf(onlyGrade ?? null, plan) !== null;
  const shiftedClock = windows && plan.question.clock !== "injury";
  const coarse = family.curves.some((curve) => curve.coarse === true);
  return [
    ...(coarse ? ["Shares are told at the bends of a line; between them it is a guide to the eye."] : []),
    family.family === "standardised"
      ? `Averaged over ${family.strata_used.map(drawnText).join("; ")} at the same mix for both groups. Open marks: half are back.`
      : `${coarse ? "" : "Short strokes: follow-up ended. "}Open marks: half are back.`,
    ...(isSome(competing)
      ? [
          typeof competing === "number"
            ? `${counted(competing, "competing end", "competing ends")} counted as end of follow-up.`
            : "Competing ends are counted as end of follow-up; how many is left out.",
        ]
      : []),
    ...(family.family === "compared" && plan.compare.adjust_for.length > 0
      ? [`Groups as they are, not adjusted for ${plan.compare.adjust_for.map(fieldWords).join(", ")}.`]
      : []),
    ...(family.entry === "clock"
      ? []
      : ["An injury counts as at risk from its first visit or treatment on, so few or none on day 0."]),
    ...namesOf(family, plan).notes,
    ...(shiftedClock
      ? [`Usual windows are meant from the injury on; this axis begins at ${clockWords(plan)}.`]
      : []),
    caution,
  ];
}

function curveWords({ label, n, events, quantiles, landmarks }: CurveResult, plan: Plan): string {
  const half = quantiles.find(({ share }) => share === 0.5);
  const landmark = landmarks.find(({ week }) => week === plan.main_landmark_weeks);
  const parts = [
    ...(half ? [`half back, weeks: ${weeksEstimateWords(half.days)}`] : []),
    ...(landmark
      ? [
          `back by week ${weekWords(landmark.week)}, per cent: ${estimateWords(landmark.returned, looks.percent)}`,
        ]
      : []),
  ];
  return `${label}: n = ${n}, ${backOf(events)}${parts.length > 0 ? `; ${parts.join("; ")}` : ""}.`;
}
