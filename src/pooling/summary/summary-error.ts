import { InputError } from "../../schema/input-error.js";

/** A file of summaries that cannot be pooled. The message names the file, the place in it, and what to do. */
export class SummaryError extends InputError {
  override readonly name = "SummaryError";
}
