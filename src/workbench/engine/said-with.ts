import { type Proposal, type Said, sayAnswer, takeAnswer } from "../../ingest/mapping/index.js";
import { oneLine } from "../../schema/index.js";
import { BringError } from "./bring.js";

/** What was said, and an answer: one of the choices, or any other that can stand in its place. */
export function saidWith(
  { said, proposal: { mapping } }: { readonly said: Said; readonly proposal: Proposal },
  { question: asked, answer: text }: { readonly question: string; readonly answer: string },
): Said {
  const question = mapping.undecided.find((each) => each.question === asked);
  if (question === undefined) return said;
  const taken = takeAnswer(question, { text: text.trim(), mapping });
  if ("expected" in taken)
    throw new BringError(`"${oneLine(text)}" is not a possible answer. ${taken.expected}`);
  return sayAnswer(said, { question, answer: taken.answer });
}
