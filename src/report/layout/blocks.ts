import { cautionAgainLine, cautionLine } from "../../words/cautions.js";
import { html, type Safe, trusted } from "../escape.js";

/** The caution of a page that shows return times, in full, beneath what a reader sees first. */
export const caution = (): Safe => html`<p class="caution">${cautionLine}</p>\n`;

/** Beneath whatever shows return times further down the same page. */
export const cautionAgain = (): Safe => html`<p class="note">${cautionAgainLine}</p>\n`;

export const bullets = (items: readonly (Safe | string)[]): Safe =>
  html`<ul>\n${items.map((item) => html`<li>${item}</li>\n`)}</ul>\n`;

export const heading = (text: string): Safe => html`<h3>${text}</h3>\n`;

/** How a folded part begins. */
export const foldedMark = '<details class="behind">';

/** What stands behind an answer, folded away under its title until somebody opens it. */
export const behind = (title: string, body: Safe): Safe => html`${trusted(foldedMark)}
<summary>${title}</summary>
${body}</details>
`;
