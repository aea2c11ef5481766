import { ink } from "../../../src/charts/theme.js";
import { textWidth } from "../../../src/report/text-width.js";

/** A line of text of a drawing with the box it takes, in pixels. */
export interface DrawnText {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const attribute = (tag: string, name: string): string | undefined =>
  new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1];

function shift(tag: string): [number, number] {
  const found = /translate\(([-\d.e]+),\s*([-\d.e]+)\)/.exec(attribute(tag, "transform") ?? "");
  return found ? [Number(found[1]), Number(found[2])] : [0, 0];
}

/** Every line of text of an SVG as the chart library writes it: groups that only shift, text, lines as tspan. */
export function drawnTexts(svg: string): DrawnText[] {
  const texts: DrawnText[] = [];
  const groups: [number, number][] = [[0, 0]];
  for (const [whole, closing, opening, body] of svg.matchAll(
    /(<\/g>)|(<g(?:\s[^>]*[^>/])?>)|<text\b[^>]*>(.*?)<\/text>/gs,
  )) {
    const [x, y] = groups.at(-1)!;
    if (closing !== undefined) groups.pop();
    else if (opening !== undefined) groups.push([x + shift(opening)[0], y + shift(opening)[1]]);
    // the mark of invented data lies behind a plot, under whatever is drawn
    else if (body !== "" && !whole.includes(`fill="${ink.syntheticPale}"`))
      texts.push(...linesOf(whole, body!, [x, y]));
  }
  return texts;
}

function linesOf(whole: string, body: string, [x, y]: [number, number]): DrawnText[] {
  const tag = whole.slice(0, whole.indexOf(">") + 1);
  const size = Number.parseFloat(attribute(tag, "font-size")!);
  const weight = attribute(tag, "font-weight") === "bold" ? "bold" : "regular";
  const lines = body.includes("<tspan") ? [...body.matchAll(/<tspan[^>]*>(.*?)<\/tspan>/g)] : [[body, body]];
  const dys = body.includes("<tspan")
    ? [...body.matchAll(/<tspan[^>]*>/g)].map(([open]) => Number(attribute(open, "dy") ?? 0))
    : [0];
  let baseline = y + shift(tag)[1];
  return lines.map(([, line], index) => {
    const text = line!.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&amp;", "&");
    baseline += dys[index]!;
    const width = textWidth(text, { fontSize: size, weight });
    const start =
      x + shift(tag)[0] - width * ({ middle: 0.5, end: 1 }[attribute(tag, "text-anchor") ?? ""] ?? 0);
    return {
      text,
      left: start,
      right: start + width,
      top: baseline - 0.73 * size,
      bottom: baseline + 0.2 * size,
    };
  });
}

/** Pairs of texts that cover one another by more than a pixel each way. */
export function overlaps(texts: readonly DrawnText[]): string[] {
  return texts.flatMap((a, index) =>
    texts
      .slice(index + 1)
      .filter(
        (b) =>
          Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1,
      )
      .map((b) => `"${a.text}" and "${b.text}"`),
  );
}
