import type { Results } from "../study/results.js";
import { type SectionId, sectionTitles } from "../words/sections.js";
import type { Safe } from "./escape.js";
import type { FigureFamily } from "./figures.js";

/** A figure as it was drawn, ready to be put into a page and a folder. */
export interface DrawnFigure {
  /** Small letters, digits and hyphens; names the files. */
  readonly id: string;
  readonly title: string;
  /** What the figure shows, in words, for those who can't see it. */
  readonly description: string;
  readonly svg: string;
  /** The picture as PNG; null where none was drawn. */
  readonly png: Uint8Array | null;
  /** The chart's specification, which draws it again. */
  readonly spec: unknown;
}

/** A figure of a report on rows, by its kind. */
export interface RenderedFigure extends DrawnFigure {
  /** The groups it shows, where several figures of the family show different ones. */
  readonly groups?: readonly string[];
  readonly family: FigureFamily;
}

/** What every section is made from. */
export interface ReportContext {
  readonly results: Results;
  readonly figures: readonly RenderedFigure[];
  /** Version of the toolkit. */
  readonly version: string;
}

/** One part of the report, in the order a reader asks. */
export interface Section {
  readonly id: SectionId;
  readonly title: string;
  readonly body: Safe;
}

/** A section under its title. */
export const section = (id: SectionId, body: Safe): Section => ({ id, title: sectionTitles[id], body });
