import type { AnswerCode } from "../data-query.js";
import { fact, plainly, quoted, type Wording } from "./wording.js";

const notUsed = "The answer is not used; the doubt, if it is raised, stays open.";

/** The words for doubts about the answers to earlier doubts. */
export const aboutAnswers: Record<AnswerCode, Wording> = {
  "left-out-by-answer": {
    found: () => "this row",
    expected: (query) =>
      `is left out because the site said so about the doubt ${quoted(fact(query, "rule"))}`,
    mend: () => "Nothing to do; take the answer back if the row should be used.",
    consequence: "The row is set aside.",
  },
  "answer-stale": plainly(
    "answers a doubt that is not raised any more",
    "Nothing to do if the table was mended meanwhile; if it was another doubt about the row, look at the new list.",
    { consequence: notUsed },
  ),
  "answer-contradictory": plainly(
    "has two answers that do not agree with each other, or with an answer about the same cell",
    "Keep one of them.",
    { consequence: notUsed },
  ),
  "answer-incomplete": plainly(
    'needs an answer "change" and a new value together, and has one of them only',
    "Fill in both; write the word blank as the new value to empty the cell.",
    { consequence: notUsed },
  ),
  "answer-not-possible": plainly(
    "is a doubt about a whole file, or not about one cell, which this answer cannot mend",
    'Write "stands", or mend the file and export it again.',
    { consequence: notUsed },
  ),
  "answer-elsewhere": plainly(
    "names a doubt of another rule or column than this line does",
    "Look whether single columns of the list were sorted or moved; write a new list and copy the answers.",
    { consequence: notUsed },
  ),
  "answer-without-effect": plainly(
    "is answered by a change after which the same doubt is raised again",
    'Check the new value; write "stands" if it was right as it stood.',
    { consequence: "The new value is used; the doubt stays open." },
  ),
  "answer-leaves-row-aside": plainly(
    'is answered "stands", and the row cannot be used with what stands there',
    "Nothing to do if the row should stay out; change the value otherwise.",
    { consequence: "The doubt is closed; the row stays set aside." },
  ),
};
