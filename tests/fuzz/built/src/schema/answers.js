import { z } from "zod";
import { fieldsOf, optional, required } from "./field.js";
/** What a site may answer to a doubt. */
export const answerKinds = ["stands", "change", "leave-out"];
/** One row a doubt and its answer: the list for the site, with its last columns filled in. */
export const answerRow = z.strictObject({
    id: required.identifier({
        description: "Names the doubt; the same at every reading of the same cells, wherever the row stands",
        example: "q-7k2m-9xwd-4hq3",
    }),
    person: optional.text({
        description: "Pseudonym of the person, as it stands in the table",
        example: "P09",
    }),
    injury: optional.text({ description: "Injury, where it is known", example: "P09-1" }),
    rule: optional.text({
        description: "Kind of doubt; must be left as it is",
        example: "grade-without-letter",
    }),
    file: optional.text({ description: "File in which the doubt arose", example: "injuries.csv" }),
    row: optional.text({ description: "Row as the spreadsheet showed it; for finding it only", example: "14" }),
    column: optional.text({ description: "Column; must be left as it is", example: "grade" }),
    found: optional.text({ description: "What stands there", example: "IV" }),
    question: optional.text({
        description: "The doubt in words",
        example: "does not say whether 4a or 4b",
    }),
    mend: optional.text({ description: "What could be answered or mended", example: "Write 4a or 4b." }),
    answer: optional.choice(answerKinds, {
        description: "stands: it is right as it stands; change: new_value takes the place of the cell; leave-out: the row is set aside; blank while not answered",
        example: "change",
    }),
    new_value: optional.text({
        description: "With change: what should stand in the cell, written as in the table; the word blank empties it",
        example: "4b",
    }),
    answered_by: optional.text({ description: "Who answered, coded", example: "site-a-2" }),
    answered_on: optional.date({ description: "Day of the answer", example: "2025-02-03" }),
});
/** The list of doubts and their answers, described as the tables of the cohort are. */
export const answersTable = {
    name: "answers",
    title: "One row a doubt about the data, for the site to answer",
    key: ["id"],
    row: answerRow,
    fields: fieldsOf(answerRow),
};
