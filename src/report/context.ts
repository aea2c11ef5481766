import type { Results } from "../study/results.js";
import type { Safe } from "./escape.js";

/** A figure as it was drawn, ready to be put into a page and a folder. */
export interface RenderedFigure {
  /** Small letters, digits and hyphens; names the files. */
  readonly id: string;
  readonly title: string;
  /** What the figure shows, in words, for those who can't see it. */
  readonly description: string;
  readonly svg: string;
  /** The picture as PNG; null where none was drawn. */
  readonly png: Uint8Array | null;
  /** The groups it shows, where several figures of the family show different ones. */
  readonly groups?: readonly string[];
  /** The chart's specification, which draws it again. */
  readonly spec: unknown;
  readonly family:
    | "all"
    | "grade"
    | "compared"
    | "standardised"
    | "forest"
    | "distances"
    | "balance"
    | "missing";
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

/** Titles by id: the contents list and the cross-references take them from here. */
export const sectionTitles = {
  answer: "In plain words",
  care: "Read this with care",
  counted: "Who was counted, and who was set aside",
  cohort: "Who they were",
  "follow-up": "How they were followed",
  missing: "What is missing, and who was lost",
  curves: "Return over time",
  effects: "How the groups differ",
  distances: "Tendon-phalanx distances",
  queries: "Questions about the data",
  methods: "How the numbers were made",
  cautions: "What this report is not",
  checklist: "Reporting checklist",
  provenance: "Where this report comes from",
} as const;
export type SectionId = keyof typeof sectionTitles;

/** A section under its title. */
export const section = (id: SectionId, body: Safe): Section => ({ id, title: sectionTitles[id], body });
