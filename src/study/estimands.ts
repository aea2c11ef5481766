import type { ExactEffect, ExactFamily, ExactResults } from "./exact-results.js";
import { type MeasureKey, measureOf } from "./measures/index.js";
import type { Specification } from "./specification.js";

type Estimand = ExactResults["estimands"][number];
type Figures = Pick<
  ExactResults,
  "curves" | "effects" | "within" | "definitions" | "after_return" | "known_returns" | "cohort"
>;
type Common = Omit<Estimand, "id" | "figure" | "people" | "groups" | "by">;

/** What the main figures are figures of: one entry for each kind of them, in the order of a report. */
export function estimandsOf(figures: Figures, asked: Specification): Estimand[] {
  const own = {
    ...commonOf(figures, asked),
    compare: asked.comparison.by,
    entry: figures.curves.find(({ family }) => family === "compared")?.entry ?? asked.question.entry,
  };
  return [
    ...figures.curves.map((family) => ofFamily(family, own)),
    ...withinFigures(figures, own),
    ...ofEffects(figures.effects, own),
    ...ofEffects(figures.definitions?.pooled === false ? effectsWithin(figures.definitions) : [], {
      ...own,
      isWithin: true,
    }),
    ...afterFigures(figures, own),
  ];
}

interface Own extends Common {
  readonly compare: string;
  readonly entry: ExactFamily["entry"];
  readonly isWithin?: boolean;
}

/** How ends that compete with the return are counted in a share. */
function commonOf({ known_returns }: Figures, { question, shareBack }: Specification): Common {
  return {
    counted_from: question.clock,
    at_risk_from: question.entry,
    competing_ends: [...question.competingEnds],
    competing_ends_are:
      question.competingEnds.length === 0
        ? "none"
        : shareBack === "of_everyone"
          ? "not_back"
          : "supposed_away",
    lost_are: "like_those_followed",
    returns: known_returns.path,
    adjusted_for: [],
    strata_used: [],
  };
}

/** The same without what is no part of an estimand. */
const common = ({ compare: _, entry: __, isWithin: ___, ...rest }: Own): Common => rest;

const peopleOf = {
  all: "analysed",
  grade: "grades",
  compared: "compared",
  definition: "definitions",
} as const satisfies Partial<Record<ExactFamily["family"], Estimand["people"]>>;

/** The estimand of a family of curves: shares back, days by which a share is back, and mean times. */
export const estimandOfFamily = ({
  family,
  curves,
}: Pick<ExactFamily, "family"> & { readonly curves: readonly { readonly label: string }[] }): string =>
  family === "standardised"
    ? `curves:${curves.map(({ label }) => label).join("-")}:adjusted`
    : `curves:${family}`;

function ofFamily(family: ExactFamily, own: Own): Estimand {
  const { curves, held_equal, strata_used, entry } = family;
  const by = { all: null, grade: "grade", definition: "definition" } as const;
  return {
    ...common(own),
    id: estimandOfFamily(family),
    figure: "shares_and_times",
    people:
      family.family === "standardised"
        ? strata_used.length > 0
          ? "strata_used"
          : "with_every_field"
        : peopleOf[family.family],
    groups: curves.map(({ label, n }) => ({ label, n })),
    by: family.family === "compared" || family.family === "standardised" ? own.compare : by[family.family],
    at_risk_from: entry,
    adjusted_for: [...held_equal],
    strata_used: [...strata_used],
  };
}

function withinFigures({ within, cohort }: Figures, own: Own): Estimand[] {
  if (within === null || within.rows.length === 0) return [];
  return [
    {
      ...common(own),
      id: `within:${within.field}`,
      figure: "shares_within",
      people: "within",
      groups: cohort.groups.map(({ label, n }) => ({ label, n })),
      by: own.compare,
      at_risk_from: own.entry,
    },
  ];
}

const figureOf = {
  landmark_difference: "difference_of_shares",
  restricted_mean_difference: "difference_of_mean_times",
  hazard_ratio: "hazard_ratio",
} as const satisfies Partial<Record<MeasureKey, Estimand["figure"]>>;

/** The estimand of an effect: the same on all days. */
export const estimandOfEffect = ({
  measure,
  compared,
  reference,
  adjusted_for,
}: Pick<ExactEffect, "measure" | "compared" | "reference" | "adjusted_for">): string =>
  `${measure}:${compared}-${reference}:${adjusted_for.length > 0 ? "adjusted" : "crude"}`;

function ofEffects(effects: readonly ExactEffect[], own: Own): Estimand[] {
  const ofReturn = effects.filter(({ measure }) => measureOf(measure).outcome === "return");
  const first = new Map<string, ExactEffect>();
  for (const effect of ofReturn) {
    const id = estimandOfEffect(effect);
    if (!first.has(id)) first.set(id, effect);
  }
  return [...first].map(([id, effect]) => ofEffect(id, effect, own));
}

function ofEffect(id: string, effect: ExactEffect, own: Own): Estimand {
  const { measure, adjusted_for, strata_used, compared, reference, n } = effect;
  const isRatio = measure === "hazard_ratio";
  return {
    ...common(own),
    id,
    figure: figureOf[measure as keyof typeof figureOf],
    people: own.isWithin
      ? "definitions"
      : adjusted_for.length === 0
        ? "compared"
        : strata_used.length > 0
          ? "strata_used"
          : "with_every_field",
    groups: own.isWithin
      ? []
      : [
          { label: compared, n: n.compared },
          { label: reference, n: n.reference },
        ],
    by: own.compare,
    at_risk_from: own.entry,
    competing_ends_are:
      isRatio && own.competing_ends.length > 0 ? "end_of_being_at_risk" : own.competing_ends_are,
    adjusted_for: [...adjusted_for],
    strata_used: own.isWithin ? [] : [...strata_used],
  };
}

const effectsWithin = ({ rows }: NonNullable<Figures["definitions"]>): ExactEffect[] =>
  rows.flatMap(({ effects }) => effects);

function afterFigures({ after_return: after }: Figures, own: Own): Estimand[] {
  if (after === null) return [];
  const told = (family: "all" | "compared" | "definition") =>
    after.groups.filter((group) => group.family === family);
  const by = { all: null, compared: own.compare, definition: "definition" } as const;
  return (["all", "compared", "definition"] as const)
    .filter((family) => told(family).some(({ n }) => n > 0))
    .map((family) => ({
      ...common(own),
      id: `after:${family}`,
      figure: "states_after_return",
      people: peopleOf[family],
      groups: told(family).map(({ label, n }) => ({ label, n })),
      by: by[family],
      at_risk_from: family === "compared" ? own.entry : own.at_risk_from,
      competing_ends_are: own.competing_ends.length === 0 ? "none" : "states",
      returns: "days",
    }));
}
