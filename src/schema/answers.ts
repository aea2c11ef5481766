import { z } from "zod";
import { fieldsOf, optional, required } from "./field.js";
import type { Table } from "./tables.js";

/** What a site may answer to a query. */
export const answerKinds = ["stands", "change", "leave-out"] as const;
export type AnswerKind = (typeof answerKinds)[number];

/** The list is never shared as a table, invented or found in a sheet of a site's own. */
const ofAnswers = { sharing: "never", header: "own-name", invented: "blank" } as const;

/** One row per query and its answer: the list for the site, with its last columns filled in. */
export const answerRow = z.strictObject({
  id: required.identifier({
    ...ofAnswers,
    description:
      "Id of the query; it stays the same as long as the cells are the same, in whichever row they are",
    example: "q-7k2m-9xwd-4hq3",
  }),
  person: optional.text({
    ...ofAnswers,
    description: "Pseudonym of the person, as in the table",
    example: "P09",
  }),
  injury: optional.text({ ...ofAnswers, description: "Injury, if it is known", example: "P09-1" }),
  rule: optional.text({
    ...ofAnswers,
    description: "Kind of query; must not be changed",
    example: "grade-without-letter",
  }),
  file: optional.text({
    ...ofAnswers,
    description: "File that the query is about",
    example: "injuries.csv",
  }),
  row: optional.text({
    ...ofAnswers,
    description: "Row as the spreadsheet shows it; only for finding it",
    example: "14",
  }),
  column: optional.text({ ...ofAnswers, description: "Column; must not be changed", example: "grade" }),
  found: optional.text({ ...ofAnswers, description: "What the cell contains", example: "IV" }),
  query: optional.text({
    ...ofAnswers,
    description: "The query in words",
    example: "does not say whether 4a or 4b",
  }),
  how_to_correct: optional.text({
    ...ofAnswers,
    description: "What could be answered or corrected",
    example: "Write 4a or 4b.",
  }),
  state: optional.text({
    ...ofAnswers,
    description:
      "open, answered, or no-longer-raised: the cells of the row have changed since, or the row is gone; the answer is kept and not used",
    example: "open",
  }),
  answer: optional.choice(answerKinds, {
    cells: "own-words",
    ...ofAnswers,
    description:
      "stands: the value is right; change: new_value replaces the cell; leave-out: the row is set aside; blank until answered",
    example: "change",
  }),
  new_value: optional.text({
    ...ofAnswers,
    description:
      "With change: the new content of the cell, written as in the table; the word blank empties the cell",
    example: "4b",
  }),
  answered_by: optional.text({ ...ofAnswers, description: "Who answered, as a code", example: "site-a-2" }),
  answered_on: optional.date({
    when: "free",
    ...ofAnswers,
    description: "Day of the answer",
    example: "2025-02-03",
  }),
});

export type AnswerRow = z.infer<typeof answerRow>;

/** The list of queries and their answers, described as the tables of the cohort are. */
export const answersTable: Table<AnswerRow> = {
  name: "answers",
  title: "One row per query about the data, for the site to answer",
  key: ["id"],
  tellsApart: ["id"],
  row: answerRow as unknown as Table<AnswerRow>["row"],
  fields: fieldsOf(answerRow as unknown as z.ZodObject),
};
