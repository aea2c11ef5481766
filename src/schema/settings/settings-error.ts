import { oneLine } from "../hidden-characters.js";

/** One thing wrong in a file of settings. */
export interface SettingsProblem {
  readonly line: number;
  readonly column: number;
  /** Key or keys that lead to the place, as `compare.by`. */
  readonly at: string;
  readonly expected: string;
  readonly mend: string;
}

/** A file of settings that cannot be followed: every problem at once, in the order of the file. */
export class SettingsError extends Error {
  override readonly name: string = "SettingsError";
  constructor(
    readonly file: string,
    readonly problems: readonly SettingsProblem[],
  ) {
    super(
      inOrder(problems)
        .map((problem) => problemText(file, problem))
        .join("\n"),
    );
  }
}

const inOrder = (problems: readonly SettingsProblem[]) =>
  [...problems].sort((one, other) => one.line - other.line || one.column - other.column);

/** The sentence of a problem: where, what was expected, how to mend it. */
function problemText(file: string, { line, column, at, expected, mend }: SettingsProblem): string {
  const place = at === "" ? "" : ` "${at}":`;
  const where = `${file}, line ${line}, column ${column}:${place}`;
  return `${oneLine(`${where} ${expected}`)}\n  ${oneLine(mend)}`;
}
