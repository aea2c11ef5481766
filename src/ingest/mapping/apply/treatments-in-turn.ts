import { elapsedDays } from "../../../schema/cells/dates/elapsed-time.js";
import { dateOfDay, dayNumber, type IsoDate } from "../../../schema/dates.js";
import type { Field } from "../../../schema/field.js";
import { alternatives, phrasesOfAll } from "../../../schema/languages/alternatives.js";
import { plainLetters } from "../../../schema/plain-letters.js";
import { codedReader } from "./coded-text.js";

/** Two treatments, and the day of the change where the first tells how long it was. */
export interface InTurn {
  readonly first: string;
  readonly second: string;
  readonly change: IsoDate | null;
}

const then = new RegExp(
  String.raw`\s*(?:→|⇒|->|=>|>|[,;]?\s+(?:${alternatives(phrasesOfAll(({ dates }) => dates.afterwards))})\s)\s*`,
  "u",
);
/** A treatment, and how long it was. */
const withTime = /^([^\d~≈]*?)[\s,(:]*([\d~≈].*?)?\)?$/;

/**
 * Reads "tape 6 wks then ring", "splint 4/52 → tape"; null for one treatment, for three and for what is not known. Nothing
 * is supposed about a treatment that has no time: when the second began is then not known.
 *
 * @param options field: of the treatment; start: the first day of the first treatment
 */
export function treatmentsInTurn(
  cell: string,
  { field, start }: { readonly field: Field; readonly start: IsoDate | null },
): InTurn | null {
  const parts = plainLetters(cell.trim()).split(then);
  if (parts.length !== 2) return null;
  const [first, second] = parts.map((part) => oneTreatment(part, field));
  if (first == null || second == null || first.treatment === second.treatment) return null;
  const change = start === null || first.days === null ? null : dateOfDay(dayNumber(start) + first.days);
  return { first: first.treatment, second: second.treatment, change };
}

function oneTreatment(part: string, field: Field) {
  const [, name = "", time] = withTime.exec(part.trim()) ?? [];
  const treatment = codedReader(field)(name.trim());
  const lasted = time === undefined ? null : elapsedDays(time);
  if (treatment === null || treatment === "" || (time !== undefined && lasted === null)) return null;
  return { treatment, days: lasted === null ? null : Math.round((lasted.least + lasted.most) / 2) };
}
