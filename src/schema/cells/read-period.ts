import { periodOf } from "./period.js";
import { type DateOrder, dateReader } from "./read-date.js";
import { type CellReader, problem } from "./reading.js";

const span = /^(\d{4}-\d{2}-\d{2})\s*\/\s*(\d{4}-\d{2}-\d{2})$/;
const monthOrWeek = /^\d{4}-(?:\d{2}|W\d{2})$/;

/**
 * Reads a day as `dateReader` does, and also a month `2024-03`, a calendar week `2024-W10` and a span of days
 * `2024-03-01/2024-03-31`, both days included.
 */
export function periodReader(order: DateOrder): CellReader {
  const readDay = dateReader(order);
  return (text) => {
    const days = span.exec(text);
    if (days !== null) {
      const [, first = "", last = ""] = days;
      const unread = [first, last].map(readDay).find((reading) => "problem" in reading);
      if (unread !== undefined) return unread;
      if (first > last) return problem("span-inside-out");
      return { value: first === last ? first : `${first}/${last}` };
    }
    if (monthOrWeek.test(text)) return periodOf(text) === null ? problem("date-impossible") : { value: text };
    const reading = readDay(text);
    // a column of periods has no precision column: its queries give other advice
    return "problem" in reading ? problem(reading.problem, { ...reading.facts, form: "period" }) : reading;
  };
}

/** The same, and also a day that something came later than, `>2024-05-27`: when it came, or whether, is not known. */
export function periodOrLaterReader(order: DateOrder): CellReader {
  const readPeriod = periodReader(order);
  const readDay = dateReader(order);
  return (text) => {
    if (!text.startsWith(">")) return readPeriod(text);
    const reading = readDay(text.slice(1).trim());
    return "problem" in reading ? reading : { value: `>${reading.value}` };
  };
}
