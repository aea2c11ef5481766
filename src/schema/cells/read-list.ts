import type { Field } from "../field.js";
import { choiceReader } from "./read-choice.js";
import { type CellReader, problem, saysNothing } from "./reading.js";

const separators = /\s*[|/+,;&]\s*/;
const span = /^\s*[AC]\d\s*[-–—]\s*[AC]?\d\s*$/i;

/** Reads words separated by | (or / + , ; &); a dash between two pulleys is a query. */
export function listReader(field: Pick<Field, "cells" | "spellings" | "terms">): CellReader {
  const readWord = choiceReader(field);
  return (text) => {
    if (saysNothing(text)) return problem("missing-in-words");
    const words: string[] = [];
    for (const entry of text.split(separators)) {
      if (span.test(entry)) return problem("list-range");
      const reading = readWord(entry.trim());
      if ("problem" in reading) return reading;
      words.push(String(reading.value));
    }
    return { value: words };
  };
}
