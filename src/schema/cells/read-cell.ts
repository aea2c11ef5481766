import type { Field } from "../field.js";
import { holdsHidden } from "../hidden-characters.js";
import { boundedReader } from "./read-bounded.js";
import { choiceReader } from "./read-choice.js";
import { type DateOrder, dateReader } from "./read-date.js";
import { listReader } from "./read-list.js";
import { numberReader } from "./read-number.js";
import { periodOrLaterReader, periodReader } from "./read-period.js";
import { blank, type CellReader, problem, type Reading, saysNothing, tidy } from "./reading.js";
import { remembering } from "./remembering.js";

/**
 * The reader of a field's cells: tidies the text, takes blank as null, and reads the rest by the kind of the field.
 * It never guesses: what could mean two things is a problem.
 */
export function cellReaderOf(field: Field, dateOrder: DateOrder = "year-first"): (cell: string) => Reading {
  const read = readerByKind(field, dateOrder);
  return (cell) => {
    const text = tidy(cell);
    return text === "" ? blank : read(text);
  };
}

function readerByKind(field: Field, dateOrder: DateOrder): CellReader {
  switch (field.kind) {
    case "text":
      return (text) => ({ value: text });
    case "identifier":
      return identifier;
    case "date":
      return orNothing(dateReader(dateOrder));
    case "period":
      return orNothing(field.required ? periodReader(dateOrder) : periodOrLaterReader(dateOrder));
    case "number":
    case "integer":
      return orNothing(numberReader(field.unit));
    case "bounded":
      return orNothing(boundedReader(field));
    case "choice":
      return remembering(choiceReader(field));
    case "list":
      return remembering(listReader(field));
  }
}

/** Names are compared letter by letter, so that one with a letter that nobody sees is not the name it looks like. */
function identifier(text: string): Reading {
  if (holdsHidden(text)) return problem("identifier-hidden");
  return saysNothing(text) ? problem("missing-in-words") : { value: text };
}

const orNothing =
  (read: CellReader): CellReader =>
  (text) =>
    saysNothing(text) ? problem("missing-in-words") : read(text);
