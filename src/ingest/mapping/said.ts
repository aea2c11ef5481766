import type { ShapedSheet } from "../grid/shape/shape-sheet.js";
import type { Mapping, Undecided } from "./mapping.js";
import { notUsedAnswer } from "./meaning.js";
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

/** What was said before, and an answer to one more question. */
export function sayAnswer(
  said: Said,
  { question, answer }: { readonly question: Undecided; readonly answer: string },
): Said {
  const [kind = "", name = "", part = ""] = question.decides[0] ?? [];
  if (kind === "one_row") return { ...said, oneRow: answer as "injury" | "visit" };
  if (kind === "injuries_in_row") return { ...said, groups: answer as "each" | "first" };
  if (kind === "columns" && part === "from") return sayColumn(said, { field: name, column: answer });
  if (kind !== "meaning")
    return { ...said, answers: new Map([...said.answers, [question.question, answer]]) };
  if (answer === notUsedAnswer) return { ...said, notUsed: [...said.notUsed, name] };
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

/** The mapping proposed for a sheet with everything that a person has said about it. */
export function proposalSaid(
  sheet: ShapedSheet,
  { said, ...options }: Pick<ProposeOptions, "name" | "table" | "codes"> & { readonly said: Said },
): Proposal {
  const proposal = proposeMapping(sheet, {
    ...options,
    settled: said.columns,
    notUsed: said.notUsed,
    ...(said.oneRow === undefined ? {} : { oneRow: said.oneRow }),
    ...(said.groups === undefined ? {} : { groups: said.groups }),
  });
  return { ...proposal, mapping: withAnswers(proposal.mapping, said.answers) };
}

const withAnswers = (mapping: Mapping, answers: Said["answers"]): Mapping =>
  mapping.undecided.reduce((before, question) => {
    const answer = answers.get(question.question);
    return answer === undefined || !Object.hasOwn(question.choices, answer)
      ? before
      : settleQuestion(before, { question, answer });
  }, mapping);
