import { visibleText } from "../schema/hidden-characters.js";

declare const safeMark: unique symbol;

/** Markup that may stand in a page as it is; made only by `html` and `trusted`. */
export interface Safe {
  readonly [safeMark]: true;
  readonly markup: string;
}

/** What may be put into a template: text and numbers are escaped, markup is not, null leaves nothing. */
export type Content = Safe | string | number | null | readonly Content[];

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/**
 * Text as it may stand between tags or inside a quoted attribute. Characters that cannot be seen, such as marks that
 * turn the reading direction, are written out, so that a cell can't rearrange or hide the words around it.
 *
 * @example escapeText("<b> & 'x'") // => "&lt;b&gt; &amp; &#39;x&#39;"
 */
export function escapeText(text: string): string {
  return visibleText(text).replace(/[&<>"']/g, (character) => entities[character]!);
}

/** Markup the toolkit made itself (a drawn figure, a style sheet); never for text from data. */
export const trusted = (markup: string): Safe => ({ markup }) as Safe;

/** Template for markup: everything put in is escaped, unless it is markup already. */
export function html(parts: TemplateStringsArray, ...contents: readonly Content[]): Safe {
  return trusted(parts.map((part, i) => part + markupOf(contents[i] ?? null)).join(""));
}

/** Several pieces as one. */
export const together = (contents: readonly Content[]): Safe => trusted(contents.map(markupOf).join(""));

function markupOf(content: Content): string {
  if (content === null) return "";
  if (typeof content === "string") return escapeText(content);
  if (typeof content === "number") return escapeText(String(content));
  if ("markup" in content) return content.markup;
  return content.map(markupOf).join("");
}
