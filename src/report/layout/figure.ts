import { type SectionId, sectionTitles } from "../../words/sections.js";
import type { DrawnFigure, RenderedFigure, ReportContext } from "../context.js";
import { html, type Safe, trusted } from "../escape.js";
import { type FigureFamily, figureKinds } from "../figures.js";

/** What a drawing may not hold: a page without scripts and connections stays one. */
const forbidden: readonly (readonly [RegExp, string])[] = [
  [/^<script\b/i, "a script"],
  [/^<foreignObject\b/i, "foreign markup"],
  [/^<(?:[^"]|"[^"]*")*?\son[a-z]+\s*=/i, "an event handler"],
  [/\s(?:xlink:)?href="(?!#|data:image\/)/i, "a link to somewhere else"],
  [
    /\s(?:fill|stroke|clip-path|mask|filter|style|marker-\w+)="[^"]*url\(\s*(?!#)/i,
    "a resource from somewhere else",
  ],
];

/** The figures of a section, in their given order, each with its description for those who want it in words, and its caution. */
export const figuresIn = ({ figures, results }: ReportContext, section: SectionId): Safe[] =>
  figures
    .filter(({ family }) => figureKinds[family].section === section)
    .map((figure) => figureBlock(figure, results.plan.synthetic));

/** The figure that a reader sees first, beside the plain words: curves like for like where there are any. */
export const leadingFigure = ({ figures }: Pick<ReportContext, "figures">): RenderedFigure | null =>
  (["standardised", "compared", "definition", "all"] as const)
    .map((family) => figures.find((figure) => figure.family === family))
    .find((figure) => figure !== undefined) ?? null;

/** That figure as a part of the page. */
export function leadingFigureBlock(context: ReportContext): Safe | null {
  const figure = leadingFigure(context);
  return figure === null ? null : figureBlock(figure, context.results.plan.synthetic);
}

/** The figures of one kind that show these groups; the one that a reader has seen first is named in its place. */
export const figuresOfKind = (
  { figures, results }: ReportContext,
  { family, groups }: { readonly family: FigureFamily; readonly groups: readonly string[] | null },
): Safe[] =>
  figures
    .filter((figure) => figure.family === family)
    .filter((figure) => groups === null || groups.every((label) => figure.groups?.includes(label)))
    .map((figure) =>
      figure.id === leadingFigure({ figures })?.id
        ? html`<p>See the figure of these curves in the section <a href="#figure-${figure.id}">“${sectionTitles.answer}”</a>.</p>\n`
        : figureBlock(figure, results.plan.synthetic),
    );

const figureBlock = (figure: RenderedFigure, synthetic: boolean): Safe => drawnFigure(figure, synthetic);

/** A drawing, which carries its own caution, with its description for those who want it in words. */
export function drawnFigure(figure: DrawnFigure, synthetic: boolean): Safe {
  const mark = synthetic ? "SYNTHETIC: " : null;
  return html`<figure id="figure-${figure.id}">
<div class="figure-box" role="group" aria-label="${figure.title}" tabindex="0">${inlineSvg(figure)}</div>
<figcaption><details><summary>Figure in words: ${mark}${figure.title}</summary><p>${figure.description}</p></details></figcaption>
</figure>
`;
}

/**
 * A drawing as part of the page: no declarations, and no style attributes, which the page's policy would not apply.
 * Its ids must begin with the figure's id, since several drawings share the page.
 *
 * @throws Error naming the figure when it holds a script, a handler, a reference to something outside itself, or an
 *   id that another figure could have
 */
export function inlineSvg({ id, svg }: Pick<RenderedFigure, "id" | "svg">): Safe {
  const tags = svg.match(/<[^>]*>/g) ?? [];
  const found = forbidden.find(([pattern]) => tags.some((tag) => pattern.test(tag)));
  if (found !== undefined) throw new Error(`figure "${id}" holds ${found[1]}; a report takes drawings only`);
  const foreign = tags
    .flatMap((tag) => /\sid="([^"]*)"/.exec(tag)?.[1] ?? [])
    .find((one) => !one.startsWith(`${id}-`));
  if (foreign !== undefined)
    throw new Error(`figure "${id}" has the id "${foreign}"; expected one that begins with "${id}-"`);
  const bare = svg.slice(svg.indexOf("<svg")).replace(/<[^>]*>/g, withoutDeclarations);
  return trusted(bare);
}

const withoutDeclarations = (tag: string): string =>
  tag
    .replace(/\sxmlns(?::\w+)?="[^"]*"/g, "")
    .replace(/\sstyle="([^"]*)"/g, (_, rules: string) => presentation(rules));

/** Style rules as the drawing attributes they stand for. */
function presentation(rules: string): string {
  return rules
    .split(";")
    .map((rule) => rule.split(":").map((part) => part.trim()))
    .filter((parts) => parts.length === 2 && parts[0] !== "")
    .map(([name, value]) => ` ${name}="${value}"`)
    .join("");
}
