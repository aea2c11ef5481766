import {
  afterLossFigure,
  afterReturnFigures,
  balanceFigures,
  differenceFigure,
  type Figure,
  forestFigures,
  missingValuesFigures,
  otherEndsFigures,
  pairedDistancesFigure,
  pooledCurvesFigure,
  pooledSitesFigure,
  returnCurveFigure,
  type Theme,
} from "../../../src/charts/index.js";
import { inventedCohort, inventedDistances, threeGroupsCompared } from "./invented-cohort.js";
import {
  fiveGrades,
  type InventedGroup,
  inventedFamily,
  inventedPlan,
  threeTreatments,
} from "./invented-curves.js";
import { inventedEffect, threeLandmarks } from "./invented-effects.js";
import { inventedAfter, inventedDifference, inventedLoss, twoOf, withOtherEnds } from "./invented-ends.js";
import { inventedGaps } from "./invented-gaps.js";
import { inventedSiteCurves } from "./invented-site-curves.js";
import { differenceAtSites, inventedShare, sitesWithGaps } from "./invented-sites.js";

/** The first page of a figure that may take several. */
const first =
  <Data>(figures: (data: Data, theme: Theme) => readonly Figure[]) =>
  (data: Data, theme: Theme): Figure =>
    figures(data, theme)[0]!;
const otherEndsFirst = first(otherEndsFigures);
const afterReturnFirst = first(afterReturnFigures);
const forestFirst = first(forestFigures);
const balanceFirst = first(balanceFigures);
const missingValuesFirst = first(missingValuesFigures);

const plan = inventedPlan();
const group = (label: string, parts: Partial<InventedGroup> = {}): InventedGroup => ({
  label,
  n: 20,
  from: 30,
  to: 150,
  censorEvery: 5,
  ...parts,
});
const compared = (...groups: InventedGroup[]) => inventedFamily("compared", groups);
const long = "supervised programme with thermoplastics";
const wide = "MWMWMWMWMWMWMWMWMWMWMWMWMWMWMWMWMWMWMWMW";
const clock = inventedPlan({ question: { clock: "treatment_start", milestone: "previous_level" } });
const longPlan = inventedPlan({ compare: { groups: [long, wide], reference: wide } });

/** Ordinary and awkward results, each as a figure in a theme: what every drawing has to stand. */
export const awkwardFigures: Readonly<Record<string, (theme: Theme) => Figure>> = {
  "five grades": (theme) => returnCurveFigure({ family: fiveGrades, plan }, theme),
  "three treatments of one grade": (theme) =>
    returnCurveFigure({ family: threeTreatments, plan, onlyGrade: "3" }, theme),
  "one curve": (theme) =>
    returnCurveFigure({ family: inventedFamily("all", [group("all injuries", { n: 60 })]), plan }, theme),
  "no curves": (theme) => returnCurveFigure({ family: compared(), plan }, theme),
  "a group without injuries": (theme) =>
    returnCurveFigure({ family: compared(group("ring"), group("tape", { n: 0 })), plan }, theme),
  "a group with nobody back": (theme) =>
    returnCurveFigure({ family: compared(group("ring"), group("tape", { censorEvery: 1 })), plan }, theme),
  "a group of one": (theme) =>
    returnCurveFigure({ family: compared(group("ring"), group("tape", { n: 1, from: 80 })), plan }, theme),
  "thirty days": (theme) =>
    returnCurveFigure(
      { family: compared(group("ring", { from: 3, to: 30 }), group("tape", { from: 5, to: 30 })), plan },
      theme,
    ),
  "a year, another clock": (theme) =>
    returnCurveFigure(
      { family: compared(group("ring", { to: 365 }), group("tape", { to: 300 })), plan: clock },
      theme,
    ),
  "window beyond the axis": (theme) =>
    returnCurveFigure(
      { family: inventedFamily("grade", [group("2"), group("4b", { to: 120 })]), plan },
      theme,
    ),
  "grade without its letter": (theme) =>
    returnCurveFigure(
      { family: inventedFamily("grade", [group("3"), group("4_undivided"), group("unknown")]), plan },
      theme,
    ),
  "five long names ending together": (theme) =>
    returnCurveFigure(
      {
        family: compared(...[1, 2, 3, 4, 5].map((n) => group(n % 2 ? long : `${n}${wide.slice(1)}`))),
        plan: longPlan,
      },
      theme,
    ),
  "real data": (theme) =>
    returnCurveFigure({ family: threeTreatments, plan: inventedPlan({ synthetic: false }) }, theme),
  "other ends of three treatments": (theme) =>
    otherEndsFirst(
      { family: withOtherEnds(threeTreatments, { gave_up: [0.05, 0.21, 0.3], new_rupture: [0.1] }), plan },
      theme,
    ),
  "other ends, nearly everybody": (theme) =>
    otherEndsFirst({ family: withOtherEnds(compared(group("ring")), { died: [0.97] }), plan }, theme),
  "other ends of five long names": (theme) =>
    otherEndsFirst(
      {
        family: withOtherEnds(
          compared(...[1, 2, 3, 4, 5].map((n) => group(n % 2 ? long : `${n}${wide.slice(1)}`))),
          { gave_up: [0.1, 0.1, 0.1, 0.1, 0.1], new_rupture: [0.01], died: [0.02, 0, 0.3] },
        ),
        plan: longPlan,
      },
      theme,
    ),
  "a difference over time": (theme) =>
    differenceFigure(
      { difference: inventedDifference("ring", "tape"), family: twoOf(threeTreatments), plan },
      theme,
    ),
  "a difference over time of long names, without a band": (theme) =>
    differenceFigure(
      {
        difference: {
          ...inventedDifference(long, wide),
          p: null,
          critical_value: null,
          reason: "too-few-rows",
        },
        family: compared(group(long), group(wide)),
        plan: longPlan,
      },
      theme,
    ),
  "after the return, two groups": (theme) =>
    afterReturnFirst({ groups: [inventedAfter("ring", 24, 5), inventedAfter("tape", 31, 0)], plan }, theme),
  "after the return, five long names": (theme) =>
    afterReturnFirst(
      {
        groups: [long, wide, "tape", "rest", "other"].map((label, n) =>
          inventedAfter(label, 4 + 9 * n, 1 + n),
        ),
        plan: longPlan,
      },
      theme,
    ),
  "after the return, nobody followed": (theme) =>
    afterReturnFirst({ groups: [inventedAfter("ring", 0, 0)], plan }, theme),
  "a difference after loss": (theme) =>
    afterLossFigure(inventedLoss({ compared: "ring", reference: "tape", plan }), theme),
  "a difference after loss, long names, only the ends known": (theme) =>
    afterLossFigure(inventedLoss({ compared: long, reference: wide, plan: longPlan, only: "ends" }), theme),
  "the share of all after loss": (theme) => afterLossFigure(inventedLoss({ compared: null, plan }), theme),
  "three landmarks": (theme) => forestFirst({ effects: threeLandmarks, plan }, theme),
  "no effects": (theme) => forestFirst({ effects: [], plan }, theme),
  "two compared groups, limits missing and far off": (theme) =>
    forestFirst(
      {
        plan,
        effects: [
          inventedEffect("hazard_ratio", [0.02, 0.0001, 900]),
          inventedEffect("hazard_ratio", [1.4, null, 3.1], { compared: "surgery" }),
          inventedEffect("hazard_ratio", [1.4, 0.8, null], {
            compared: "surgery",
            adjusted_for: ["grade", "sex"],
          }),
          inventedEffect("restricted_mean_difference", [0, null, null], { at_day: 100 }),
          inventedEffect("landmark_difference", [null, null, null], { at_day: 91 }),
          inventedEffect("distance_change_difference", [-0.4, -0.9, 0.1], {
            adjusted_for: ["distance_loaded_first"],
          }),
        ],
      },
      theme,
    ),
  "effects with long names": (theme) =>
    forestFirst(
      {
        plan: longPlan,
        effects: [
          inventedEffect("landmark_difference", [0.1, -0.2, 0.4], {
            at_day: 91,
            compared: long,
            reference: wide,
          }),
          inventedEffect("landmark_difference", [0.1, -0.2, 0.4], {
            at_day: 92,
            compared: long,
            reference: wide,
            adjusted_for: ["age_at_injury"],
          }),
        ],
      },
      theme,
    ),
  "pairs of three groups": (theme) =>
    pairedDistancesFigure(
      {
        plan,
        distances: inventedDistances([
          { label: "ring", n: 31, drop: 1.2 },
          { label: "tape", n: 24, drop: 0.7 },
          { label: "surgery", n: 9, drop: 1.9 },
        ]),
      },
      theme,
    ),
  "pairs of five groups, one empty, one single, long names": (theme) =>
    pairedDistancesFigure(
      {
        plan,
        distances: inventedDistances(
          [long, wide, "tape", "rest", "other"].map((label, n) => ({ label, n, drop: 1 })),
        ),
      },
      theme,
    ),
  "no pairs at all": (theme) => pairedDistancesFigure({ plan, distances: inventedDistances([]) }, theme),
  "balance of three groups": (theme) => balanceFirst({ plan, cohort: threeGroupsCompared }, theme),
  "balance without rows": (theme) =>
    balanceFirst({ plan, cohort: inventedCohort(["ring", "tape"], {}) }, theme),
  "gaps of three treatments and two sites": (theme) =>
    missingValuesFirst(
      { plan, missing: inventedGaps(["ring", "tape", "surgery"], ["site-a", "site-b"]) },
      theme,
    ),
  "no gaps": (theme) => missingValuesFirst({ plan, missing: { ...inventedGaps([], []), fields: [] } }, theme),
  "gaps of long names, and more sites than there is room for": (theme) =>
    missingValuesFirst(
      {
        plan: longPlan,
        missing: inventedGaps(
          [long, wide, "tape", "rest"],
          Array.from({ length: 20 }, (_, n) => `site-${n}`),
        ),
      },
      theme,
    ),
  "balance with long names": (theme) =>
    balanceFirst(
      { plan: longPlan, cohort: inventedCohort([long, wide], { sex: [4.2, null], grade: [null, null] }) },
      theme,
    ),
  ...Object.fromEntries(
    [1, 2, 3, 12, 30].flatMap((count) => [
      [`a share at ${count} sites`, (theme: Theme) => pooledSitesFigure(inventedShare(count), theme)],
      [
        `a difference at ${count} sites`,
        (theme: Theme) => pooledSitesFigure(differenceAtSites(count), theme),
      ],
    ]),
  ),
  "sites without an interval, an answer or a count": (theme) => pooledSitesFigure(sitesWithGaps(), theme),
  ...Object.fromEntries(
    [1, 3, 12, 30].map((count) => [
      `curves of ${count} sites`,
      (theme: Theme) => pooledCurvesFigure(inventedSiteCurves(count), theme),
    ]),
  ),
  "curves of sites, pooled day by day": (theme) =>
    pooledCurvesFigure(inventedSiteCurves(12, { coarse: false }), theme),
};
