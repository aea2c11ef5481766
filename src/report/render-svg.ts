import type { Figure } from "../charts/figure.js";
import { visibleText } from "../schema/hidden-characters.js";
import { textWidth } from "./text-width.js";

/**
 * Draws a figure as SVG: no font, locale, clock or network enters, so the same figure gives the same bytes anywhere.
 * The text alternative stands in the drawing; ids begin with the figure's id. Characters that cannot be seen are
 * written out: an SVG with some of them is no XML.
 *
 * @throws Error when the chart library warns: what it would draw is then not what was specified
 */
export async function renderSvg(given: Figure): Promise<string> {
  const figure = withVisibleTexts(given);
  const [vega, vegaLite, { expressionInterpreter }] = await Promise.all([
    import("vega"),
    import("vega-lite"),
    import("vega-interpreter"),
  ]);
  const { logger, warnings } = collectingLogger();
  measureWithBundledFont(vega);
  // The specification is ours and checked against the library's schema by the tests; its own type is too deep to be of use.
  const compiled = vegaLite.compile(figure.spec as never, { logger }).spec;
  const view = new vega.View(vega.parse(compiled, undefined, { ast: true }), {
    expr: expressionInterpreter,
    renderer: "none",
    loader: refusingLoader,
    logger,
  });
  const drawn = await view.toSVG();
  view.finalize();
  if (warnings.length > 0) throw new Error(`Figure "${figure.id}": ${warnings.join("; ")}`);
  return described(withOwnIds(plain(drawn), figure.id), figure);
}

function withVisibleTexts<Part>(part: Part): Part {
  if (typeof part === "string") return visibleText(part) as Part;
  if (Array.isArray(part)) return part.map(withVisibleTexts) as Part;
  if (part === null || typeof part !== "object") return part;
  return Object.fromEntries(
    Object.entries(part).map(([key, value]) => [key, withVisibleTexts(value)]),
  ) as Part;
}

/** Without dashes that are none, and without roles for the parts of what is one image with one description. */
const plain = (svg: string): string =>
  svg
    .replace(/ stroke-dasharray="(?:1,0)?"/g, "")
    .replace(/ (?:role="graphics-[a-z]+"|aria-roledescription="[^"]*"|aria-hidden="true")/g, "");

/** Puts a prefix before every id of an SVG and before what refers to it, so that several can stand in one page. */
export function prefixIds(svg: string, prefix: string): string {
  return svg
    .replace(/ id="/g, ` id="${prefix}`)
    .replace(/url\(#/g, `url(#${prefix}`)
    .replace(/href="#/g, `href="#${prefix}`)
    .replace(/ aria-labelledby="([^"]*)"/g, (_whole, ids: string) => {
      return ` aria-labelledby="${ids
        .split(" ")
        .map((id) => prefix + id)
        .join(" ")}"`;
    });
}

/** An SVG with style rules of its own, for one that has to look the same outside the report: `withStyle(svg, fontFaceCss())`. */
export const withStyle = (svg: string, css: string): string =>
  svg.replace("</desc>", `</desc><style>${css}</style>`);

/** The chart library's typings leave its text metrics out. */
interface TextMetrics {
  width(item: { fontSize?: number; fontWeight?: string | number }, text: string): number;
}

function measureWithBundledFont(vega: object): void {
  const { textMetrics } = vega as { textMetrics: TextMetrics };
  textMetrics.width = (item, text) =>
    textWidth(text, {
      fontSize: item.fontSize ?? 11,
      weight: item.fontWeight === "bold" || Number(item.fontWeight) >= 600 ? "bold" : "regular",
    });
}

const refuse = (): Promise<never> => Promise.reject(new Error("A figure loads nothing."));
const refusingLoader = { options: {}, load: refuse, sanitize: refuse, http: refuse, file: refuse };

function collectingLogger() {
  const warnings: string[] = [];
  const keep = (...words: readonly unknown[]) => {
    warnings.push(words.map(String).join(" "));
    return logger;
  };
  const pass = () => logger;
  const logger = { level: (_?: number) => logger as never, error: keep, warn: keep, info: pass, debug: pass };
  return { logger, warnings };
}

/** The chart library counts its ids up through the life of the process; here they are numbered by their order. */
function withOwnIds(svg: string, figureId: string): string {
  const found = [...svg.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]!);
  const names = new Map(found.map((id, i) => [id, `${figureId}-part-${i + 1}`]));
  return svg
    .replace(/ id="([^"]+)"/g, (_whole, id: string) => ` id="${names.get(id)}"`)
    .replace(/url\(#([^)]+)\)/g, (_whole, id: string) => `url(#${names.get(id) ?? id})`)
    .replace(/href="#([^"]+)"/g, (_whole, id: string) => `href="#${names.get(id) ?? id}"`);
}

function described(svg: string, { id, title, description }: Figure): string {
  const [name, text] = [`${id}-title`, `${id}-description`];
  return svg.replace(/<svg ([^>]*)>/, (_whole, attributes: string) => {
    const labelled = `<svg ${attributes} role="img" aria-labelledby="${name} ${text}">`;
    return `${labelled}<title id="${name}">${escaped(title)}</title><desc id="${text}">${escaped(description)}</desc>`;
  });
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
