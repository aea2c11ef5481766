import { InputError } from "../schema/input-error.js";

/** The files of a study do not go together, or hold too little for what was asked. */
export class RunError extends InputError {
  override readonly name = "RunError";
}
