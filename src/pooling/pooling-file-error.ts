import { oneLine } from "../schema/hidden-characters.js";
import { InputError } from "../schema/input-error.js";

/** What is wrong with a file that a site or the coordinator sent: where, what was found, what to do. */
export class PoolingFileError extends InputError {
  override readonly name = "PoolingFileError";
  readonly file: string;
  /** Place in the file, as `sites[0].score[2]`; empty for the file as a whole. */
  readonly place: string;

  constructor({
    file,
    place = "",
    problem,
    correction,
  }: {
    readonly file: string;
    readonly place?: string;
    readonly problem: string;
    readonly correction: string;
  }) {
    const where = place === "" ? oneLine(file) : `${oneLine(file)}, at ${oneLine(place)}`;
    super(`${where}: ${problem}\n  ${correction}`);
    this.file = file;
    this.place = place;
  }
}
