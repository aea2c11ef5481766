import type { ShapedSheet } from "../grid/shape/shape-sheet.js";
import { takeAnswer } from "./free-answer.js";
import type { Mapping, Undecided } from "./mapping.js";
import { meaningKey, notUsedAnswer } from "./meaning.js";
import { type Proposal, type ProposeOptions, proposeMapping } from "./propose/propose.js";
import { settleQuestion } from "./settle.js";

/** What a person has said about a sheet so far, question by question. */
export interface Said {
  /** By our column the column of the sheet, or null for none. */
  readonly columns: ReadonlyMap<string, string | null>;
  /** Columns of the sheet that are deliberately not used. */
  readonly notUsed: readonly string[];
  readonly oneRow?: "injury" | "visit";
  readonly groups?: "each" | "first";
  /** Answers to questions that change nothing else, by the question. */
  readonly answers: ReadonlyMap<string, string>;
}

export const nothingSaid: Said = { columns: new Map(), notUsed: [], answers: new Map() };

/** Questions on whose answers the others depend: what a row is, and what columns mean. They are asked first. */
export const isAboutColumns = ({ decides: [path = []] }: Undecided): boolean =>
  ["one_row", "injuries_in_row", meaningKey].includes(path[0] ?? "") || path[2] === "from";

/** What was said before, and an answer to one more question. */
export function sayAnswer(
  said: Said,
  { question, answer }: { readonly question: Undecided; readonly answer: string },
): Said {
  const [kind = "", name = "", part = ""] = question.decides[0] ?? [];
  if (kind === "one_row") return { ...said, oneRow: answer as "injury" | "visit" };
  if (kind === "injuries_in_row") return { ...said, groups: answer as "each" | "first" };
  if (kind === "columns" && part === "from") return sayColumn(said, { field: name, column: answer });
  if (kind !== meaningKey)
    return { ...said, answers: new Map([...said.answers, [question.question, answer]]) };
  if (answer === notUsedAnswer)
    return { ...said, notUsed: [...said.notUsed, ...question.decides.map(([, column = ""]) => column)] };
  return sayColumn(said, { field: answer, column: name });
}

/** What was said before, and from which column of the sheet one of ours comes. */
export function sayColumn(
  said: Said,
  { field, column }: { readonly field: string; readonly column: string | null },
): Said {
  const others = [...said.columns].filter(
    ([name, taken]) => name !== field && (taken === null || taken !== column),
  );
  return {
    ...said,
    columns: new Map([...others, [field, column]]),
    notUsed: said.notUsed.filter((name) => name !== column),
  };
}

/** What was said about columns and rows, as a proposal takes it. */
export const proposeOptionsOf = ({
  columns,
  notUsed,
  oneRow,
  groups,
}: Said): Pick<ProposeOptions, "settled" | "notUsed" | "oneRow" | "groups"> => ({
  settled: columns,
  notUsed,
  ...(oneRow === undefined ? {} : { oneRow }),
  ...(groups === undefined ? {} : { groups }),
});

/** The mapping proposed for a sheet with everything that a person has said about it. */
export function proposalSaid(
  sheet: ShapedSheet,
  { said, ...options }: Pick<ProposeOptions, "name" | "table" | "codes"> & { readonly said: Said },
): Proposal {
  const proposal = proposeMapping(sheet, { ...options, ...proposeOptionsOf(said) });
  return { ...proposal, mapping: withAnswersSaid(proposal.mapping, said) };
}

/** A mapping with the questions settled that a person has answered before. */
export const withAnswersSaid = (mapping: Mapping, { answers }: Pick<Said, "answers">): Mapping =>
  mapping.undecided.reduce((before, question) => {
    const text = answers.get(question.question);
    const taken = text === undefined ? null : takeAnswer(question, { text, mapping });
    return taken === null || "expected" in taken
      ? before
      : settleQuestion(before, { question, answer: taken.answer });
  }, mapping);
