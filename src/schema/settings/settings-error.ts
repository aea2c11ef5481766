import { counted } from "../counted.js";
import { oneLine } from "../hidden-characters.js";
import { InputError } from "../input-error.js";
import { visible } from "../words/wording.js";

/** One thing wrong in a file of settings. */
export interface SettingsProblem {
  /** Null for settings that stand in no file. */
  readonly line: number | null;
  readonly column: number | null;
  /** Key or keys that lead to the place, as `compare.by`. */
  readonly at: string;
  readonly expected: string;
  readonly correction: string;
}

/** So many problems are told at once. */
const mostTold = 20;
/** No sentence is longer, however long the texts are that it repeats. */
const longestSentence = 1_000;

/** Settings that cannot be followed: every problem at once, in the order of the file. */
export class SettingsError extends InputError {
  override readonly name: string = "SettingsError";
  constructor(
    readonly file: string,
    readonly problems: readonly SettingsProblem[],
  ) {
    super(textOf(file, problems));
  }
}

function textOf(file: string, problems: readonly SettingsProblem[]): string {
  const told = inOrder(problems).slice(0, mostTold);
  const more = problems.length - told.length;
  return [
    ...told.map((problem) => problemText(file, problem)),
    ...(more > 0
      ? [`and at least ${counted(more, "further problem", "further problems")}. Correct these first.`]
      : []),
  ].join("\n");
}

const inOrder = (problems: readonly SettingsProblem[]) =>
  [...problems].sort(
    (one, other) => (one.line ?? 0) - (other.line ?? 0) || (one.column ?? 0) - (other.column ?? 0),
  );

/** The sentence of a problem: where, what was expected, how to correct it. */
function problemText(file: string, { line, column, at, expected, correction }: SettingsProblem): string {
  const where = `${oneLine(file)}${line === null ? "" : `, line ${line}, column ${column}`}`;
  const key = at === "" ? "" : ` "${at}":`;
  return `${where}:${key} ${visible(expected, longestSentence)}\n  ${visible(correction, longestSentence)}`;
}
