import { type PageInput, sectionsOf } from "../../report/page.js";
import { plainWords } from "../../report/plain/plain-words.js";
import { renderFigures } from "../../report/render-figures.js";
import { labelOf } from "../../schema/labels.js";
import type { Results } from "../../study/results.js";
import { curveName } from "../../words/curve-families.js";
import { sectionView } from "./section-view.js";
import { talkViews } from "./talk.js";
import type { CurveView, FamilyView, ReadView, SectionView } from "./tasks.js";

const noPixels = new Uint8Array();

/** The answer of a study as the page shows it first: its plain words, and the curves of the groups compared as numbers; the sites of its tables. */
export const readView = (results: Results, sites: readonly string[]): ReadView => ({
  title: results.plan.title,
  isSynthetic: results.plan.synthetic,
  paragraphs: plainWords(results).map((sentences) => sentences.join(" ")),
  families: familiesOf(results),
  talk: talkViews(results),
  sites,
  horizonDays: Math.round(results.plan.horizon_weeks * 7),
});

/** The sections of the report, with every figure drawn. */
export async function sectionsView(results: Results, version: string): Promise<readonly SectionView[]> {
  const figures = await renderFigures(results, { drawPng: () => Promise.resolve(noPixels) });
  const context: Pick<PageInput, "results" | "figures" | "version"> = { results, figures, version };
  return sectionsOf(context).map(sectionView);
}

/** The groups adjusted, then as they are; all injuries where nobody is in the groups. */
function familiesOf({ curves, plan }: Results): readonly FamilyView[] {
  const viewOf = (family: Results["curves"][number]): FamilyView => ({
    title: titleOf(family),
    curves: family.curves.filter(({ n }) => n !== 0).flatMap((curve) => curveView(curve, plan.compare.by)),
  });
  const views = (["standardised", "compared", "definition", "all"] as const).map((name) =>
    curves.filter(({ family }) => family === name).map(viewOf),
  );
  const [adjusted, crude, byDefinition, all] = views.map((part) =>
    part.filter((family) => family.curves.length > 0),
  );
  const shown = [...adjusted!, ...crude!, ...byDefinition!];
  return shown.length > 0 ? shown : all!;
}

function titleOf({ family, held_equal }: Results["curves"][number]): string {
  if (family === "standardised") return `adjusted for ${(held_equal ?? []).map(labelOf).join(" and ")}`;
  return {
    compared: "as the groups are",
    definition: "by the definition of the return",
    all: "all injuries",
  }[family as "compared" | "definition" | "all"];
}

type Curve = Results["curves"][number]["curves"][number];
type Point = NonNullable<Curve["points"]>[number];

function curveView(curve: Curve, by: Results["plan"]["compare"]["by"]): readonly CurveView[] {
  const { points, n } = curve;
  if (points === null || typeof n !== "number") return [];
  const steps = points.flatMap(stepOf);
  const [last, lastPoint] = [steps.at(-1), points.at(-1)];
  // where the last ones followed were back or had another end, nothing remains unknown
  const isOpen = last !== undefined && last.goingOn === 0 && lastPoint!.censored !== 0;
  return [{ label: curveName(curve, by), n, steps, knownUntil: isOpen ? last.day : null }];
}

function stepOf({ day, returned, returned_lower, returned_upper, ...counts }: Point) {
  const { at_risk, events, censored, competing } = counts;
  const leaving = [events, censored, competing];
  if (typeof returned !== "number" || typeof at_risk !== "number") return [];
  const goingOn = leaving.every((count) => typeof count === "number")
    ? at_risk - leaving.reduce((sum, count) => sum + count, 0)
    : at_risk;
  return [
    {
      day,
      back: returned,
      lower: returned_lower as number | null,
      upper: returned_upper as number | null,
      atRisk: at_risk,
      goingOn,
    },
  ];
}
