import {
  isAboutColumns,
  type Mapping,
  nothingSaid,
  type Proposal,
  type Said,
  sayAnswer,
  sayColumn,
  settleQuestion,
  tableOf,
  takeAnswer,
  type Undecided,
  withAnswersSaid,
} from "../../ingest/mapping/index.js";
import { oneLine } from "../../schema/index.js";
import { type Conversing, conversation } from "./ask-questions.js";

type Propose = (said: Said) => Proposal;

/** What was said so far, and which questions were asked: one that was left open is not asked twice. */
interface Course {
  readonly talk: Conversing;
  readonly asked: Set<string>;
  said: Said;
}

/**
 * Asks at the terminal: first what columns mean, since the rest depends on it, then what is left; then whether another column
 * is to be read anywhere, whatever was proposed, which may raise further questions.
 */
export async function settleAtTerminal(first: Proposal, propose: Propose): Promise<Proposal> {
  const talk = conversation({ input: process.stdin, output: process.stdout });
  const course: Course = { talk, asked: new Set(), said: nothingSaid };
  try {
    let proposal = first;
    for (;;) {
      proposal = await settleColumns(proposal, { course, propose });
      const mapping = await settleRest(proposal.mapping, course);
      const isChanged = await askForOtherColumn(mapping, course);
      if (!isChanged) return { ...proposal, mapping };
      proposal = propose(course.said);
    }
  } finally {
    talk.close();
  }
}

/** Asks a question and keeps the answer; null where it is left open. */
async function answerTo(
  question: Undecided,
  { course, mapping }: { readonly course: Course; readonly mapping: Mapping },
): Promise<string | null> {
  const { talk, asked, said } = course;
  const open = mapping.undecided.filter((each) => !asked.has(each.question)).length;
  const answer = await talk.ask(question, { number: asked.size + 1, of: asked.size + open, mapping });
  asked.add(question.question);
  if (answer !== null) course.said = sayAnswer(said, { question, answer });
  return answer;
}

async function settleColumns(
  first: Proposal,
  { course, propose }: { readonly course: Course; readonly propose: Propose },
): Promise<Proposal> {
  let proposal = first;
  for (;;) {
    const { mapping } = proposal;
    const question = mapping.undecided.find(
      (each) => isAboutColumns(each) && !course.asked.has(each.question),
    );
    if (question === undefined) return proposal;
    const answer = await answerTo(question, { course, mapping });
    if (answer !== null) proposal = propose(course.said);
  }
}

async function settleRest(mapping: Mapping, course: Course): Promise<Mapping> {
  let current = withAnswersSaid(mapping, course.said);
  for (const question of current.undecided) {
    if (course.asked.has(question.question)) continue;
    const answer = await answerTo(question, { course, mapping: current });
    if (answer !== null) current = settleQuestion(current, { question, answer });
  }
  return current;
}

const none = "none";

/** Whether a person has named another column for one of ours. */
async function askForOtherColumn(mapping: Mapping, course: Course): Promise<boolean> {
  const { talk } = course;
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
      course.said = sayColumn(course.said, {
        field: field.name,
        column: column === null ? null : column.answer,
      });
      return true;
    }
  }
}
