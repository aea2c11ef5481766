import { oneLine } from "../../schema/hidden-characters.js";
import { InputError } from "../../schema/input-error.js";
import { nearest } from "../../schema/near.js";

/** Something was chosen that the report does not have. */
export class ChoiceError extends InputError {
  override readonly name = "ChoiceError";
}

/**
 * The error for a name that is not among those that exist.
 *
 * @param found what was written, and what it should be the name of
 * @param known the names that exist
 */
export function notAmong(
  found: { readonly text: string; readonly what: string },
  known: readonly string[],
): ChoiceError {
  const near = nearest(found.text, known);
  const perhaps = near === null ? "" : ` Did you mean "${near}"?`;
  return new ChoiceError(
    `"${oneLine(found.text)}" is no ${found.what} of this report.${perhaps}\n  There ${known.length === 1 ? "is" : "are"}: ${known.map((one) => oneLine(one)).join(", ")}.`,
  );
}
