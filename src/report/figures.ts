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
  returnCurveFigure,
  type Theme,
  themes,
} from "../charts/index.js";
import type { CurveFamily, Results } from "../study/results.js";
import { isKeptApart } from "../words/definitions.js";
import { groupsAfterReturn } from "../words/figures/after-return.js";
import { isSomethingToBalance } from "../words/figures/balance.js";
import { differencesShown } from "../words/figures/difference.js";
import { withGaps } from "../words/figures/missing-values.js";
import { familyWithOtherEnds } from "../words/figures/other-ends.js";
import type { SectionId } from "../words/sections.js";
import { lossShown } from "./plain/loss.js";

/** A kind of figure that a report can have. */
interface FigureKind {
  /** The section in which it stands. */
  readonly section: SectionId;
  /** Whether it shows times of return, and so needs the caution beneath it. */
  readonly showsReturns: boolean;
  /** The figures of this kind, none where there is nothing to show. Id (which names its files), title, notes and text alternative come from `words/figures/`. */
  readonly draw: (results: Results, theme: Theme) => readonly Drawn[];
}

/** A figure, and the groups it shows where several of a kind show different ones. */
interface Drawn {
  readonly figure: Figure;
  readonly groups?: readonly string[];
}

/** Every kind of figure, in the order of the folder. */
export const figureKinds = {
  all: curves("all"),
  grade: curves("grade"),
  compared: curves("compared"),
  standardised: curves("standardised"),
  definition: curves("definition"),
  ends: {
    section: "curves",
    showsReturns: true,
    draw: ({ curves: families, plan }, theme) =>
      familyWithOtherEnds(families).flatMap((family) =>
        otherEndsFigures({ family, plan }, theme).map((figure) => ({
          figure,
          groups: family.curves.map(({ label }) => label),
        })),
      ),
  },
  after: {
    section: "after",
    showsReturns: true,
    draw: (results, theme) => {
      const groups = groupsAfterReturn(results);
      return groups.length === 0
        ? []
        : afterReturnFigures({ groups, plan: results.plan }, theme).map((figure) => ({ figure }));
    },
  },
  forest: {
    section: "effects",
    showsReturns: true,
    draw: (results, theme) =>
      isKeptApart(results) || results.effects.length === 0
        ? []
        : forestFigures(results, theme).map((figure) => ({ figure })),
  },
  difference: {
    section: "effects",
    showsReturns: true,
    draw: (results, theme) =>
      differencesShown(results).map((shown) => ({
        figure: differenceFigure({ ...shown, plan: results.plan }, theme),
      })),
  },
  balance: {
    section: "cohort",
    showsReturns: false,
    draw: (results, theme) =>
      isSomethingToBalance(results) ? balanceFigures(results, theme).map((figure) => ({ figure })) : [],
  },
  missing: {
    section: "missing",
    showsReturns: false,
    draw: (results, theme) =>
      withGaps(results.missing).length === 0
        ? []
        : missingValuesFigures(results, theme).map((figure) => ({ figure })),
  },
  loss: {
    section: "missing",
    showsReturns: true,
    draw: ({ loss_bounds: bounds, plan }, theme) =>
      bounds === null
        ? []
        : lossShown(bounds).map((shown) => ({ figure: afterLossFigure({ shown, plan, bounds }, theme) })),
  },
  distances: {
    section: "distances",
    showsReturns: false,
    draw: ({ distances, plan }, theme) =>
      distances === null || distances.pairs.length === 0
        ? []
        : [{ figure: pairedDistancesFigure({ distances, plan }, theme) }],
  },
} as const satisfies Readonly<Record<string, FigureKind>>;

export type FigureFamily = keyof typeof figureKinds;

/** Return curves, a figure for each family of that name. */
function curves(name: CurveFamily["family"]) {
  return {
    section: "curves",
    showsReturns: true,
    draw: ({ curves: families, plan }: Results, theme: Theme): readonly Drawn[] => {
      const grades = families.find(({ family }) => family === "grade")?.curves ?? [];
      // the usual window of a grade belongs behind a curve only where everybody has that grade
      const grade = grades.length === 1 ? { onlyGrade: grades[0]!.label } : {};
      return families
        .filter(({ family, curves: own }) => family === name && own.length > 0)
        .map((family) => ({
          figure: returnCurveFigure({ family, plan, ...grade }, theme),
          groups: family.curves.map(({ label }) => label),
        }));
    },
  } as const satisfies FigureKind;
}

/** Every figure of a report, in the order of the folder, as specifications. */
export const figuresOf = (
  results: Results,
  theme: Theme = themes.screen,
): readonly (Drawn & { readonly family: FigureFamily })[] =>
  (Object.keys(figureKinds) as FigureFamily[]).flatMap((family) =>
    figureKinds[family].draw(results, theme).map((drawn) => ({ ...drawn, family })),
  );
