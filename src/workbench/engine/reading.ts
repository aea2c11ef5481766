import { type PageInput, sectionsOf } from "../../report/page.js";
import { plainWords } from "../../report/plain/plain-words.js";
import { renderFigures } from "../../report/render-figures.js";
import type { Results } from "../../study/results.js";
import { curveName } from "../../words/curve-families.js";
import { milestoneWords } from "../../words/terms.js";
import type { CurveView, ReadView } from "./tasks.js";

const noPixels = new Uint8Array();

/** The answer of a study as the page shows it: the sections of the report, and the curves of the groups compared as numbers. */
export async function readView(results: Results, version: string): Promise<ReadView> {
  const drawn = await renderFigures(results, { drawPng: () => Promise.resolve(noPixels) });
  const context: Pick<PageInput, "results" | "figures" | "version"> = { results, figures: drawn, version };
  return {
    title: results.plan.title,
    lead: `When were they ${milestoneWords[results.plan.question.milestone].back}?`,
    isSynthetic: results.plan.synthetic,
    paragraphs: plainWords(results).map((sentences) => sentences.join(" ")),
    curves: curvesOf(results),
    horizonDays: Math.round(results.plan.horizon_weeks * 7),
    sections: sectionsOf(context).map(({ id, title, body }) => ({ id, title, markup: body.markup })),
  };
}

/** The curves of the groups as they are; of all injuries where nobody is in the groups. */
function curvesOf({ curves, plan }: Results): readonly CurveView[] {
  const shown = (["compared", "all"] as const)
    .map((family) => curves.find((one) => one.family === family)?.curves.filter(({ n }) => n !== 0) ?? [])
    .find((family) => family.length > 0);
  return (shown ?? []).flatMap((curve) => {
    const { points, n } = curve;
    if (points === null || typeof n !== "number") return [];
    const steps = points.flatMap(({ day, returned, returned_lower, returned_upper, at_risk }) =>
      typeof returned === "number" && typeof at_risk === "number"
        ? [
            {
              day,
              back: returned,
              lower: returned_lower as number | null,
              upper: returned_upper as number | null,
              atRisk: at_risk,
            },
          ]
        : [],
    );
    return [{ label: curveName(curve, plan.compare.by), n, steps }];
  });
}
