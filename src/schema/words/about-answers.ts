import type { AnswerCode } from "../data-query.js";
import { fact, plainly, quoted, type Wording } from "./wording.js";

const notUsed = "The answer is not used. The query stays open if it is still raised.";

/** The words for queries about the answers to earlier queries. */
export const aboutAnswers: Record<AnswerCode, Wording> = {
  "left-out-by-answer": {
    found: () => "this row",
    expected: (query) =>
      `is left out, because the site answered leave-out to the query ${quoted(fact(query, "rule"))}`,
    correction: () => "No action is needed. Delete the answer if the row should be used.",
    consequence: "The row is set aside.",
  },
  "answer-stale": plainly(
    "is the id of a query that is no longer raised",
    "No action is needed if the table has been corrected since. If the row now raises another query, answer that one in a new list.",
    { consequence: notUsed },
  ),
  "answer-contradictory": plainly(
    "has two answers that contradict each other, or one that contradicts an answer about the same cell",
    "Keep one of them.",
    { consequence: notUsed },
  ),
  "answer-incomplete": plainly(
    'needs both the answer "change" and a new value, but has only one of them',
    'Fill in both. To empty the cell, write "blank" as the new value.',
    { consequence: notUsed },
  ),
  "answer-not-possible": plainly(
    "is the id of a query about a whole file or about more than one cell, which this answer cannot settle",
    'Answer "stands", or correct the file and export it again.',
    { consequence: notUsed },
  ),
  "answer-elsewhere": plainly(
    "is the id of a query with another rule or column than this line has",
    "Check whether single columns of the list were sorted or moved. Write a new list and copy the answers into it.",
    { consequence: notUsed },
  ),
  "answer-without-effect": plainly(
    "was answered with a change, but the new value raises the same query",
    'Check the new value. Answer "stands" if the original value was right.',
    { consequence: "The new value is used, and the query stays open." },
  ),
  "answer-leaves-row-aside": plainly(
    'was answered "stands", but the row cannot be used with this value',
    'No action is needed if the row should stay out. Otherwise answer "change" with a new value.',
    { consequence: "The query is closed, and the row stays set aside." },
  ),
};
