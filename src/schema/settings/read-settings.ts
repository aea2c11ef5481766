import { type Document, isMap, isNode, isScalar, LineCounter, type Node, parseDocument } from "yaml";
import type { SettingsProblem } from "./settings-error.js";
import { type Path, type Place, problemsOf, type SettingsForm } from "./settings-problems.js";

/** Settings as they were read: their typed value, or why there is none. */
export interface ReadSettings<Value> {
  /** Null when there are problems. */
  readonly value: Value | null;
  readonly problems: readonly SettingsProblem[];
  /** What the file says, before any default is filled in. */
  readonly written: unknown;
  /** Where a key path stands, for problems that only show when keys are held together. */
  readonly place: Place;
}

/**
 * Reads a file of settings, YAML 1.2, by its schema.
 *
 * @param text the text of the file
 * @returns the typed value, or all problems at once, each with its line and column
 */
export function readSettings<Value>(text: string, form: SettingsForm): ReadSettings<Value> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
  const place: Place = (path) => placeOf(document, path, lines);
  const yamlProblems = document.errors.map((error) => notYaml(error.message, lines.linePos(error.pos[0])));
  if (yamlProblems.length > 0) return { value: null, problems: yamlProblems, written: undefined, place };
  const written: unknown = document.toJS() ?? {};
  const read = form.schema.safeParse(written);
  return {
    value: read.success ? (read.data as Value) : null,
    problems: (read.error?.issues ?? []).flatMap((issue) => problemsOf(issue, { form, place, written })),
    written,
    place,
  };
}

const notYaml = (message: string, { line, col }: { line: number; col: number }): SettingsProblem => ({
  line,
  column: col,
  at: "",
  expected: `this is not YAML: ${message}.`,
  mend: 'Write "key: value" lines, nested keys indented by two spaces, and quote words that hold a colon.',
});

/** Where a key path stands in the file; the nearest parent that exists, for a key that is missing. */
function placeOf(
  document: Document.Parsed,
  path: Path,
  lines: LineCounter,
): { line: number; column: number } {
  for (let length = path.length; length > 0; length--) {
    const node = keyNodeAt(document, path.slice(0, length));
    const offset = node?.range?.[0];
    if (offset !== undefined) {
      const { line, col } = lines.linePos(offset);
      return { line, column: col };
    }
  }
  return { line: 1, column: 1 };
}

function keyNodeAt(document: Document.Parsed, path: Path): Node | null {
  const parent = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  if (isMap(parent)) {
    const pair = parent.items.find(({ key }) => isScalar(key) && String(key.value) === String(path.at(-1)));
    if (pair !== undefined && isNode(pair.key)) return pair.key;
  }
  const node = document.getIn(path, true);
  return isNode(node) ? node : null;
}
