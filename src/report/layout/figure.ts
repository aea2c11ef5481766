import type { RenderedFigure, ReportContext } from "../context.js";
import { html, type Safe, trusted } from "../escape.js";
import { cautionLine, syntheticLine } from "../words/cautions.js";

/** What a drawing may not hold: a page without scripts and connections stays one. */
const forbidden: readonly (readonly [RegExp, string])[] = [
  [/<script/i, "a script"],
  [/<foreignObject/i, "foreign markup"],
  [/\son[a-z]+\s*=/i, "an event handler"],
  [/\s(?:xlink:)?href\s*=\s*["'](?!#|data:)/i, "a link to somewhere else"],
  [/url\(\s*["']?(?!#|data:)/i, "a resource from somewhere else"],
];

/** The figures of these families, in their given order, each with its title, description and caution. */
export function figuresOf(
  { figures, results }: ReportContext,
  families: readonly RenderedFigure["family"][],
): Safe[] {
  return figures
    .filter(({ family }) => families.includes(family))
    .map((figure) => figureBlock(figure, results.plan.synthetic));
}

function figureBlock(figure: RenderedFigure, synthetic: boolean): Safe {
  const showsReturns = figure.family !== "distances" && figure.family !== "balance";
  const mark = synthetic ? html`<p class="synthetic-mark">${syntheticLine}</p>\n` : null;
  const caution = showsReturns ? html`\n<p class="caution">${cautionLine}</p>` : null;
  return html`<figure id="figure-${figure.id}">
${mark}<div class="figure-box">${inlineSvg(figure)}</div>
<figcaption><strong>${figure.title}</strong> ${figure.description}${caution}</figcaption>
</figure>
`;
}

/**
 * A drawing as part of the page: no declarations, ids of its own (several drawings share the page), and no
 * style attributes, which the page's policy would not apply.
 *
 * @throws Error naming the figure when it holds a script, a handler or a reference to something outside itself
 */
export function inlineSvg({ id, svg }: Pick<RenderedFigure, "id" | "svg">): Safe {
  const found = forbidden.find(([pattern]) => pattern.test(tagsOf(svg)));
  if (found !== undefined) throw new Error(`figure "${id}" holds ${found[1]}; a report takes drawings only`);
  const bare = svg.slice(svg.indexOf("<svg")).replace(/<[^>]*>/g, (tag) =>
    tag
      .replace(/\sxmlns(?::\w+)?="[^"]*"/g, "")
      .replace(/\sstyle="([^"]*)"/g, (_, rules: string) => presentation(rules))
      .replace(
        /\s(id|aria-labelledby|aria-describedby)="([^"]*)"/g,
        (_, name: string, ids: string) =>
          ` ${name}="${ids
            .split(/\s+/)
            .map((one) => `${id}-${one}`)
            .join(" ")}"`,
      )
      .replace(/url\(#/g, `url(#${id}-`)
      .replace(/href="#/g, `href="#${id}-`),
  );
  return trusted(bare);
}

/** The tags alone: what is written between them is text, whatever it looks like. */
const tagsOf = (svg: string): string => (svg.match(/<[^>]*>/g) ?? []).join("\n");

/** Style rules as the drawing attributes they stand for. */
function presentation(rules: string): string {
  return rules
    .split(";")
    .map((rule) => rule.split(":").map((part) => part.trim()))
    .filter((parts) => parts.length === 2 && parts[0] !== "")
    .map(([name, value]) => ` ${name}="${value}"`)
    .join("");
}
