import type { Plan } from "../../study/plan.js";
import { groupName } from "../terms.js";

/** How groups are called in a figure, and what is to be said about it under the figure. */
export interface GroupNames {
  readonly of: (label: string) => string;
  readonly notes: readonly string[];
}

/** The groups of a field, in their order. */
interface NamedGroups {
  readonly by: string;
  readonly labels: readonly string[];
}

/** The plan of a study, with what the user of its figures wants otherwise. */
export type FigurePlan = Plan & {
  /** Names of the user's own, by the label of the group. */
  readonly own_names?: Readonly<Record<string, string>>;
  /** The compared groups of the report, where a figure shows some of them or in another order. */
  readonly report_groups?: readonly string[];
};

/** Longer names lose their end. */
const longest = 32;

/** Not what the bundled font can draw: letters of Latin script with their accents, figures, usual punctuation. */
const notDrawable =
  /[^\u0020-\u007e\u00a0-\u00ac\u00ae-\u0148\u014a-\u017f\u2010-\u2015\u2018-\u201e\u2020-\u2022\u2026\u2030]/gu;

/** A text as the bundled font can draw it, with a square for every letter that it lacks. */
export const drawnText = (text: string): string => text.normalize("NFC").replace(notDrawable, "\u25a1");

/**
 * Names for the groups of a field, in their order. Terms are said in a reader's words. Sites are called as the data
 * call them; a name that is long loses its end, and has its place in the order before it where it then looks like
 * another; one in letters that the figure's font lacks is left out for its place, so that figures look the same wherever
 * they are opened. The tables have every name in full.
 */
export function groupNames({ by, labels }: NamedGroups, plan: FigurePlan): GroupNames {
  const { of, notes } = namesOfReport(by, labels);
  return { of: (label) => ownName(plan, label) ?? of(label), notes };
}

/** Names of the compared groups. */
export const comparedNames = (plan: FigurePlan): GroupNames =>
  groupNames({ by: plan.compare.by, labels: plan.compare.groups }, plan);

/** The name that the user of a figure gave to a group; null where none was given. */
export const ownName = ({ own_names }: FigurePlan, label: string): string | null =>
  own_names !== undefined && Object.hasOwn(own_names, label) ? own_names[label]! : null;

/** The number of a compared group in the report, which is part of the names of its figures; 0 where it is none. */
export const groupNumber = ({ report_groups, compare }: FigurePlan, label: string): number =>
  (report_groups ?? compare.groups).indexOf(label) + 1;

function namesOfReport(by: string, labels: readonly string[]): GroupNames {
  if (by !== "site_id") return { of: (label) => groupName(label, by), notes: [] };
  const short = labels.map(shortened);
  const names = new Map(
    labels.map((label, i) => {
      const name = short[i]!;
      if (drawnText(name) !== name) return [label, `site no. ${i + 1}`];
      const isAlone = short.filter((other) => other === name).length === 1;
      return [label, isAlone ? name : `no. ${i + 1}: ${name}`];
    }),
  );
  const isChanged = labels.some((label) => names.get(label) !== label.normalize("NFC"));
  return {
    of: (label) => names.get(label) ?? drawnText(shortened(label)),
    notes: isChanged ? [changedNote] : [],
  };
}

const changedNote =
  "Names of sites that are long, or in letters that this font lacks, are shortened or replaced by their place in the order of the sites; the tables give them in full, in the same order.";

function shortened(label: string): string {
  const characters = [...label.normalize("NFC")];
  return characters.length > longest ? `${characters.slice(0, longest - 1).join("")}…` : characters.join("");
}
