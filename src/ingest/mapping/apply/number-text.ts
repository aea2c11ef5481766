import type { DecimalSign } from "../mapping.js";
import { timesDecimal } from "./decimal-text.js";
import { unitFactor } from "./units.js";

/** How the numbers of a column are written. */
export interface NumberForm {
  readonly decimalSign: DecimalSign;
  /** Unit of ours, where the field has one. */
  readonly ours: string | undefined;
  /** Unit of the file, where it is not ours. */
  readonly theirs: string | undefined;
  /** Whether a bound such as `>2` can be handed on. */
  readonly bounds: "taken" | "queried";
}

const written = /^([<>]?)\s*([+-]?)(\d{0,15}(?:[.,]\d{1,15})?)\s*([\p{L}0-9."% ]*)$/u;

/**
 * A number of the file as ours: decimal point, our unit, nothing else. Exact arithmetic on the text.
 * A unit written in the cell goes before that of the column. Null for what is no single number (2-3, about 2) or is
 * written with the other decimal sign: that stays a question.
 */
export function numberText(cell: string, { decimalSign, ours, theirs, bounds }: NumberForm): string | null {
  const [, bound = "", sign = "", digits = "", suffix = ""] = written.exec(cell.trim()) ?? [];
  if (digits === "" || (bound !== "" && bounds === "queried")) return null;
  if (digits.includes(",") && decimalSign === "point") return null;
  const factor = factorOf(suffix.trim(), { ours, theirs });
  if (factor === null) return null;
  return `${bound}${timesDecimal(`${sign === "+" ? "" : sign}${digits.replace(",", ".")}`, factor)}`;
}

function factorOf(suffix: string, { ours, theirs }: Pick<NumberForm, "ours" | "theirs">): string | null {
  const unit = suffix === "" ? theirs : suffix.replace(/\.$/, "");
  if (unit === undefined) return "1";
  return ours === undefined ? null : unitFactor(unit, ours);
}
