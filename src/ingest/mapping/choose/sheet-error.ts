import { InputError } from "../../../schema/input-error.js";

/** A file in a site's own columns, or a code book, that cannot be read as it is. */
export class SheetError extends InputError {
  override readonly name = "SheetError";
}
