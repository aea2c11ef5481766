import { z } from "zod";
import { fieldsOf, optional, required } from "./field.js";
import type { Table } from "./tables.js";

/** What a site may answer to a doubt. */
export const answerKinds = ["stands", "change", "leave-out"] as const;
export type AnswerKind = (typeof answerKinds)[number];

/** The list is never shared as a table, invented or found in a sheet of a site's own. */
const ofAnswers = { sharing: "never", header: "own-name", invented: "blank" } as const;

/** One row a doubt and its answer: the list for the site, with its last columns filled in. */
export const answerRow = z.strictObject({
  id: required.identifier({
    ...ofAnswers,
    description: "Names the doubt; the same at every reading of the same cells, wherever the row stands",
    example: "q-7k2m-9xwd-4hq3",
  }),
  person: optional.text({
    ...ofAnswers,
    description: "Pseudonym of the person, as it stands in the table",
    example: "P09",
  }),
  injury: optional.text({ ...ofAnswers, description: "Injury, where it is known", example: "P09-1" }),
  rule: optional.text({
    ...ofAnswers,
    description: "Kind of doubt; must be left as it is",
    example: "grade-without-letter",
  }),
  file: optional.text({
    ...ofAnswers,
    description: "File in which the doubt arose",
    example: "injuries.csv",
  }),
  row: optional.text({
    ...ofAnswers,
    description: "Row as the spreadsheet showed it; for finding it only",
    example: "14",
  }),
  column: optional.text({ ...ofAnswers, description: "Column; must be left as it is", example: "grade" }),
  found: optional.text({ ...ofAnswers, description: "What stands there", example: "IV" }),
  question: optional.text({
    ...ofAnswers,
    description: "The doubt in words",
    example: "does not say whether 4a or 4b",
  }),
  mend: optional.text({
    ...ofAnswers,
    description: "What could be answered or mended",
    example: "Write 4a or 4b.",
  }),
  answer: optional.choice(answerKinds, {
    cells: "own-words",
    ...ofAnswers,
    description:
      "stands: it is right as it stands; change: new_value takes the place of the cell; leave-out: the row is set aside; blank while not answered",
    example: "change",
  }),
  new_value: optional.text({
    ...ofAnswers,
    description:
      "With change: what should stand in the cell, written as in the table; the word blank empties it",
    example: "4b",
  }),
  answered_by: optional.text({ ...ofAnswers, description: "Who answered, coded", example: "site-a-2" }),
  answered_on: optional.date({
    when: "free",
    ...ofAnswers,
    description: "Day of the answer",
    example: "2025-02-03",
  }),
});

export type AnswerRow = z.infer<typeof answerRow>;

/** The list of doubts and their answers, described as the tables of the cohort are. */
export const answersTable: Table<AnswerRow> = {
  name: "answers",
  title: "One row a doubt about the data, for the site to answer",
  key: ["id"],
  tellsApart: ["id"],
  row: answerRow as unknown as Table<AnswerRow>["row"],
  fields: fieldsOf(answerRow as unknown as z.ZodObject),
};
