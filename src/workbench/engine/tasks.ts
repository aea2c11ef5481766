import type { AnswerKind } from "../../schema/answers.js";
import type { DateOrder } from "../../schema/cells/read-date.js";
import type { Severity } from "../../schema/data-query.js";
import type { PlanAsWritten } from "../../study/plan.js";
import type { NamedBytes } from "./named-bytes.js";
import type { ContributionView, PoolingTasks } from "./pooling/pooling-tasks.js";
import type { RecordTasks } from "./record/record-tasks.js";
import type { SectionView } from "./section-view.js";

// What the page asks of the engine and what it gets back: plain data, which a worker can send.

export type { NamedBytes, SectionView };

/** What was brought, once it is known what it is. */
export type Brought =
  | { readonly kind: "study"; readonly files: readonly string[]; readonly synthetic: boolean }
  | {
      readonly kind: "tables";
      readonly tables: readonly { readonly table: string; readonly file: string; readonly rows: number }[];
    }
  | { readonly kind: "sheet"; readonly columns: ColumnsView };

export interface ChoiceOfSheet {
  readonly file: string;
  readonly sheet: string | null;
  readonly sheets: readonly string[];
}

/** One of our columns and where it comes from. */
export interface FieldView {
  readonly field: string;
  readonly label: string;
  readonly description: string;
  readonly isRequired: boolean;
  readonly sources: readonly string[];
  readonly confidence: "sure" | "likely" | "unsure" | "said";
  readonly evidence: readonly string[];
}

export interface QuestionView {
  readonly question: string;
  readonly example: string | null;
  readonly choices: readonly { readonly answer: string; readonly means: string }[];
  /** What else may be answered, in words; null where the choices are all there is. */
  readonly other: string | null;
}

export interface ColumnsView extends ChoiceOfSheet {
  readonly records: number;
  /** Which codes are read by a code book, in words. */
  readonly codes: string | null;
  readonly fields: readonly FieldView[];
  /** Every column of the sheet, to choose from. */
  readonly columns: readonly string[];
  readonly questions: readonly QuestionView[];
  readonly leftOut: readonly { readonly name: string; readonly holds: string; readonly filled: number }[];
  readonly preview: {
    readonly names: readonly string[];
    readonly rows: readonly {
      readonly row: number;
      readonly cells: readonly { readonly text: string; readonly isAsked: boolean }[];
    }[];
  };
}

export type ColumnsChange =
  | { readonly kind: "answer"; readonly question: string; readonly answer: string }
  | { readonly kind: "column"; readonly field: string; readonly column: string | null }
  | { readonly kind: "sheet"; readonly sheet: string }
  | { readonly kind: "start-over" };

/** A query about one place in the data. */
export interface QueryView {
  readonly id: string;
  readonly where: string;
  readonly found: string;
  readonly person: string | null;
  readonly answer: AnswerKind | null;
  readonly newValue: string | null;
}

/** Queries by one rule about one column. */
export interface QueriesView {
  readonly key: string;
  readonly severity: Severity;
  readonly column: string | null;
  /** Whether each is about a row; else it is about the whole file. */
  readonly isAboutRows: boolean;
  readonly expected: string;
  readonly correction: string;
  readonly consequence: string;
  /** The first of them. */
  readonly rows: readonly QueryView[];
  /** All of them. */
  readonly ids: readonly string[];
  readonly isAnswered: boolean;
}

export interface CheckView {
  readonly accounts: readonly {
    readonly file: string;
    readonly read: number;
    readonly used: number;
    readonly setAside: number;
  }[];
  readonly queries: readonly QueriesView[];
  readonly answered: number;
  readonly notices: readonly string[];
  /** Which comes first in dates that do not begin with the year; null where a mapping says it. */
  readonly dateOrder: DateOrder | null;
}

export interface AnswerGiven {
  readonly ids: readonly string[];
  /** Null takes an answer back. */
  readonly answer: AnswerKind | null;
  readonly newValue: string | null;
}

/** The parts of a study that the page lets one choose, as a study file says them. */
export interface QuestionChoices {
  readonly milestone: NonNullable<NonNullable<PlanAsWritten["question"]>["milestone"]>;
  readonly clock: NonNullable<NonNullable<PlanAsWritten["question"]>["clock"]>;
  readonly by: NonNullable<NonNullable<PlanAsWritten["compare"]>["by"]>;
  readonly groups: readonly string[];
  readonly reference: string;
  readonly adjustFor: readonly string[];
  readonly weeks: number;
  readonly grades: readonly string[];
  readonly title: string;
  readonly dateOrder: DateOrder;
  readonly closedOn: string | null;
}

/** A term with how many injuries have it. */
export interface Counted {
  readonly term: string;
  readonly label: string;
  readonly n: number;
}

export interface AskView {
  readonly choices: QuestionChoices;
  readonly groupsOf: Readonly<Record<string, readonly Counted[]>>;
  readonly injuries: number;
}

/** A curve as it is drawn: steps by day. */
export interface CurveView {
  readonly label: string;
  readonly n: number;
  readonly steps: readonly {
    readonly day: number;
    readonly back: number;
    readonly lower: number | null;
    readonly upper: number | null;
    /** Followed on that day. */
    readonly atRisk: number;
    /** Those of them who are followed beyond it. */
    readonly goingOn: number;
  }[];
  /** The last day of which anything is known; null where that is the whole horizon. */
  readonly knownUntil: number | null;
}

/** Curves that are drawn together. */
export interface FamilyView {
  /** How the groups are set side by side, such as "adjusted for grade". */
  readonly title: string;
  readonly curves: readonly CurveView[];
}

/** What a page to talk over can be about, and why there is none. */
export interface TalkView {
  readonly name: string;
  /** How many injuries there are, or that it is left out. */
  readonly n: string;
  readonly whyNot: string | null;
}

export interface ReadView {
  readonly title: string;
  readonly isSynthetic: boolean;
  readonly paragraphs: readonly string[];
  /** The adjusted curves first, where there are any: a crude figure never leads. */
  readonly families: readonly FamilyView[];
  readonly horizonDays: number;
  readonly talk: readonly TalkView[];
  /** The sites that the tables name. */
  readonly sites: readonly string[];
}

/** Everything to take away, as one archive. */
export interface Archive extends NamedBytes {
  /** What it does not hold, and why; null where it is complete. */
  readonly notice: string | null;
}

/** Every task: what it takes and what it gives. */
export interface Tasks extends RecordTasks, PoolingTasks {
  bring: (files: readonly NamedBytes[]) => Promise<Brought>;
  invent: (scenario: { readonly name: string; readonly text: string }) => Promise<Brought>;
  columns: (change: ColumnsChange) => Promise<ColumnsView>;
  check: () => Promise<CheckView>;
  settle: (given: AnswerGiven) => Promise<CheckView>;
  ask: (change: Partial<QuestionChoices>) => Promise<AskView>;
  /** Takes the question from the study file that all sites of a pool share; the data stay the site's own. */
  agree: (file: NamedBytes) => Promise<AskView>;
  /** Computes the answer before it is asked for, where that is soon done: it is then there at once. */
  prepare: () => Promise<void>;
  read: () => Promise<ReadView>;
  sections: () => Promise<readonly SectionView[]>;
  takeAway: () => Promise<Archive>;
  /** A page to talk over, about one of the groups. */
  talk: (group: string) => Promise<NamedBytes>;
  /** What a site contributes to a pool of sites, by the name under which the others know it. */
  contribute: (site: string) => Promise<ContributionView>;
}

export type TaskName = keyof Tasks;
