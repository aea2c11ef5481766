import {
  type Mapping,
  type Proposal,
  type ProposeOptions,
  settleQuestion,
  tableOf,
  takeAnswer,
} from "../../ingest/mapping/index.js";
import { oneLine } from "../../schema/index.js";
import { type Conversing, conversation } from "./ask-questions.js";

/** What a person has said about the columns of a file. */
export type Answers = Required<Pick<ProposeOptions, "settled" | "notUsed">> &
  Pick<ProposeOptions, "oneRow" | "groups">;

type Propose = (answers: Answers) => Proposal;

/** What was said so far: about columns, about the rows, and to which question. */
interface Said {
  readonly columns: Map<string, string | null>;
  readonly notUsed: string[];
  readonly rows: { oneRow?: "injury" | "visit"; groups?: "each" | "first" };
  /** By question, its answer; null where it is left open. */
  readonly answers: Map<string, string | null>;
}

/**
 * Asks at the terminal: first what columns mean, since the rest depends on it, then what is left; then whether another column
 * is to be read anywhere, whatever was proposed, which may raise further questions.
 */
export async function settleAtTerminal(first: Proposal, propose: Propose): Promise<Proposal> {
  const talk = conversation({ input: process.stdin, output: process.stdout });
  const said: Said = { columns: new Map(), notUsed: [], rows: {}, answers: new Map() };
  try {
    let proposal = first;
    for (;;) {
      proposal = await settleColumns(proposal, { propose, talk, said });
      const mapping = await settleRest(proposal.mapping, { talk, said });
      const isChanged = await askForOtherColumn(mapping, { talk, said });
      if (!isChanged) return { ...proposal, mapping };
      proposal = propose(saidToPropose(said));
    }
  } finally {
    talk.close();
  }
}

const saidToPropose = ({ columns, notUsed, rows }: Said): Answers => ({ settled: columns, notUsed, ...rows });

const aboutColumns = ({ undecided }: Mapping) =>
  undecided.filter(
    ({ decides: [path] }) =>
      path?.[0] === "one_row" ||
      path?.[0] === "injuries_in_row" ||
      path?.[0] === "meaning" ||
      path?.[2] === "from",
  );

interface Settling {
  readonly talk: Conversing;
  readonly said: Said;
}

async function settleColumns(
  first: Proposal,
  { propose, talk, said }: Settling & { readonly propose: Propose },
): Promise<Proposal> {
  const { columns, notUsed, rows, answers } = said;
  let proposal = first;
  for (;;) {
    const { mapping } = proposal;
    const question = aboutColumns(mapping).find((each) => !answers.has(each.question));
    if (question === undefined) return proposal;
    const open = mapping.undecided.filter((each) => !answers.has(each.question)).length;
    const answer = await talk.ask(question, {
      number: answers.size + 1,
      of: answers.size + open,
      mapping,
    });
    answers.set(question.question, answer);
    if (answer === null) continue;
    const [kind, name = ""] = question.decides[0]!;
    if (kind === "one_row") rows.oneRow = answer as "injury" | "visit";
    else if (kind === "injuries_in_row") rows.groups = answer as "each" | "first";
    else if (kind === "columns") columns.set(name, answer);
    else if (answer === "not_used") notUsed.push(...question.decides.map(([, column = ""]) => column));
    else columns.set(answer, name);
    proposal = propose(saidToPropose(said));
  }
}

async function settleRest(mapping: Mapping, { talk, said }: Settling): Promise<Mapping> {
  const { answers } = said;
  let current = mapping;
  for (const question of mapping.undecided) {
    if (!answers.has(question.question)) {
      const open = mapping.undecided.filter((each) => !answers.has(each.question)).length;
      const place = { number: answers.size + 1, of: answers.size + open, mapping: current };
      answers.set(question.question, await talk.ask(question, place));
    }
    const answer = answers.get(question.question) ?? null;
    if (answer !== null) current = settleQuestion(current, { question, answer });
  }
  return current;
}

const none = "none";

/** Whether a person has named another column for one of ours. */
async function askForOtherColumn(mapping: Mapping, { talk, said }: Settling): Promise<boolean> {
  const { fields } = tableOf(mapping);
  const files = mapping.seen?.columns ?? [];
  for (;;) {
    const line = await talk.line(
      `\nTo read another column, write for example "${fields[0]!.name} = ${oneLine(files[0] ?? "")}", or "= ${none}" for no column; otherwise press Enter: `,
    );
    if (line === null || line.trim() === "") return false;
    const [, ours = "", theirs = ""] = /^([^=]*)=(.*)$/.exec(line) ?? [];
    const field = fields.find(({ name }) => name === ours.trim());
    const column =
      theirs.trim() === none
        ? null
        : takeAnswer(
            { question: "", decides: [["columns", ours.trim(), "from"]], choices: {} },
            { text: theirs.trim(), mapping },
          );
    if (field === undefined) talk.say(`"${oneLine(ours.trim())}" is not a column of the toolkit.\n`);
    else if (column !== null && "expected" in column)
      talk.say(`"${oneLine(theirs.trim())}" is not a column of the file.\n`);
    else {
      said.columns.set(field.name, column === null ? null : column.answer);
      return true;
    }
  }
}
