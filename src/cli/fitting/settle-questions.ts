import {
  type Mapping,
  type Proposal,
  type ProposeOptions,
  settleQuestion,
} from "../../ingest/mapping/index.js";
import { type AskOne, conversation } from "./ask-questions.js";

/** What a person has said about the columns of a file. */
export type Answers = Required<Pick<ProposeOptions, "settled" | "notUsed">> &
  Pick<ProposeOptions, "oneRow" | "groups">;

/** Asks at the terminal: first what columns mean, since the rest depends on it, then what is left. */
export async function settleAtTerminal(
  first: Proposal,
  propose: (answers: Answers) => Proposal,
): Promise<Proposal> {
  const { ask, close } = conversation({ input: process.stdin, output: process.stdout });
  try {
    const { proposal, asked } = await settleColumns(first, { propose, ask });
    return { ...proposal, mapping: await settleRest(proposal.mapping, { ask, asked }) };
  } finally {
    close();
  }
}

const aboutColumns = ({ undecided }: Mapping) =>
  undecided.filter(
    ({ decides: [path] }) =>
      path?.[0] === "one_row" ||
      path?.[0] === "injuries_in_row" ||
      path?.[0] === "meaning" ||
      path?.[2] === "from",
  );

async function settleColumns(
  first: Proposal,
  { propose, ask }: { readonly propose: (answers: Answers) => Proposal; readonly ask: AskOne },
): Promise<{ readonly proposal: Proposal; readonly asked: ReadonlySet<string> }> {
  const columns = new Map<string, string | null>();
  const notUsed: string[] = [];
  const rows: { oneRow?: "injury" | "visit"; groups?: "each" | "first" } = {};
  const asked = new Set<string>();
  let proposal = first;
  for (;;) {
    const question = aboutColumns(proposal.mapping).find((each) => !asked.has(each.question));
    if (question === undefined) return { proposal, asked };
    asked.add(question.question);
    const answer = await ask(question, {
      number: asked.size,
      of: asked.size + openBeside(proposal.mapping, asked),
    });
    if (answer === null) continue;
    const [kind, name = ""] = question.decides[0]!;
    if (kind === "one_row") rows.oneRow = answer as "injury" | "visit";
    else if (kind === "injuries_in_row") rows.groups = answer as "each" | "first";
    else if (kind === "columns") columns.set(name, answer);
    else if (answer === "not_used") notUsed.push(name);
    else columns.set(answer, name);
    proposal = propose({ settled: columns, notUsed, ...rows });
  }
}

const openBeside = ({ undecided }: Mapping, asked: ReadonlySet<string>): number =>
  undecided.filter(({ question }) => !asked.has(question)).length;

async function settleRest(
  mapping: Mapping,
  { ask, asked }: { readonly ask: AskOne; readonly asked: ReadonlySet<string> },
): Promise<Mapping> {
  const open = mapping.undecided.filter(({ question }) => !asked.has(question));
  let current = mapping;
  for (const [place, question] of open.entries()) {
    const answer = await ask(question, { number: asked.size + place + 1, of: asked.size + open.length });
    if (answer !== null) current = settleQuestion(current, { question, answer });
  }
  return current;
}
