import { type Document, isMap, isNode, isScalar, LineCounter, type Node, parseDocument } from "yaml";
import { type Plan, planSchema } from "./plan.js";
import { contradictionsOf } from "./plan-contradictions.js";
import { PlanError, type PlanProblem } from "./plan-error.js";
import { type Path, type Place, problemsOf } from "./plan-problems.js";

/**
 * Reads a study file.
 *
 * @param file name of the file, for messages
 * @param text its text, YAML 1.2
 * @returns the plan with every default filled in
 * @throws PlanError with all problems at once, each with its line and column
 */
export function readPlan(file: string, text: string): Plan {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
  const yamlProblems = document.errors.map((error) => notYaml(error.message, lines.linePos(error.pos[0])));
  if (yamlProblems.length > 0) throw new PlanError(file, yamlProblems);

  const place: Place = (path) => placeOf(document, path, lines);
  const written: unknown = document.toJS() ?? {};
  const read = planSchema.safeParse(written);
  if (!read.success) {
    throw new PlanError(
      file,
      inOrder(read.error.issues.flatMap((issue) => problemsOf(issue, place, written))),
    );
  }
  const contradictions = contradictionsOf(read.data, written, place);
  if (contradictions.length > 0) throw new PlanError(file, inOrder(contradictions));
  return withoutSelfAdjustment(read.data);
}

const inOrder = (problems: readonly PlanProblem[]) =>
  [...problems].sort((a, b) => a.line - b.line || a.column - b.column);

const notYaml = (message: string, { line, col }: { line: number; col: number }): PlanProblem => ({
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

/** The default adjustment for grade makes no sense when grades themselves are compared. */
function withoutSelfAdjustment(plan: Plan): Plan {
  const adjust_for = plan.compare.adjust_for.filter((field) => field !== (plan.compare.by as string));
  return { ...plan, compare: { ...plan.compare, adjust_for } };
}
