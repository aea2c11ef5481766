import { cautionLine } from "../../words/cautions.js";
import { html, type Safe } from "../escape.js";

/** The caution that stands beneath whatever shows return times. */
export const caution = (): Safe => html`<p class="caution">${cautionLine}</p>\n`;

export const bullets = (items: readonly (Safe | string)[]): Safe =>
  html`<ul>\n${items.map((item) => html`<li>${item}</li>\n`)}</ul>\n`;

export const heading = (text: string): Safe => html`<h3>${text}</h3>\n`;
