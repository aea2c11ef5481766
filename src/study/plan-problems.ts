import type { z } from "zod";
import { nearest } from "../schema/near.js";
import { planSchema } from "./plan.js";
import type { PlanProblem } from "./plan-error.js";

/** The keys that lead to a value. */
export type Path = readonly PropertyKey[];
/** Where a key path stands in the file. */
export type Place = (path: Path) => { line: number; column: number };

/** The problems one schema issue stands for, in words. */
export function problemsOf(issue: z.core.$ZodIssue, place: Place, written: unknown): readonly PlanProblem[] {
  const at = issue.path.map(String).join(".");
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => unknownKey(key, issue.path, place));
  }
  const found = valueAt(written, issue.path);
  const here = place(issue.path);
  if (found === undefined) {
    return [{ ...here, at, expected: "is missing.", mend: `Add it: ${requirementOf(issue)}.` }];
  }
  return [{ ...here, at, expected: `${quoted(found)} cannot be used.`, mend: mendOf(issue, found) }];
}

function unknownKey(key: string, path: Path, place: Place): PlanProblem {
  const known = keysAt(path);
  const near = nearest(key, known);
  return {
    ...place([...path, key]),
    at: [...path.map(String), key].join("."),
    expected: "is not a key of the study file.",
    mend: `${near === null ? "" : `Did you mean "${near}"? `}Keys here: ${known.join(", ")}.`,
  };
}

/** Keys the schema knows at a path. */
function keysAt(path: Path): readonly string[] {
  let schema: unknown = planSchema;
  for (const key of path) schema = unwrapped(schema).shape?.[String(key)];
  return Object.keys(unwrapped(schema).shape ?? {});
}

interface Wrapped {
  readonly shape?: Record<string, unknown>;
  readonly def?: { readonly innerType?: unknown };
}

function unwrapped(schema: unknown): Wrapped {
  let inner = schema as Wrapped;
  while (inner?.shape === undefined && inner?.def?.innerType !== undefined)
    inner = inner.def.innerType as Wrapped;
  return inner ?? {};
}

function mendOf(issue: z.core.$ZodIssue, found: unknown): string {
  const requirement = `Write ${requirementOf(issue)}.`;
  if (issue.code !== "invalid_value") return requirement;
  const near = nearest(String(found), issue.values.map(String));
  const ever = /ever|never/i.test(String(found)) ? ` ${whyNotEver}` : "";
  return `${near === null ? "" : `Did you mean "${near}"? `}${requirement}${ever}`;
}

const whyNotEver =
  "Groups made from what happened later (ever ringed, never operated) would count the time before it as its doing; " +
  'compare by "first_treatment" instead.';

function requirementOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_value":
      return `one of: ${issue.values.map(String).join(", ")}`;
    case "too_small":
      return `${issue.origin === "array" ? "a list of" : "a value of"} at least ${issue.minimum}${issue.origin === "array" ? " entries" : ""}`;
    case "too_big":
      return `${issue.origin === "array" ? "a list of" : "a value of"} at most ${issue.maximum}`;
    case "invalid_type":
      return typeWords[issue.expected] ?? issue.expected;
    case "invalid_format":
      return issue.format === "date" ? "a day as YYYY-MM-DD" : issue.message;
    default:
      return issue.message;
  }
}

const typeWords: Readonly<Record<string, string>> = {
  string: "a word or text",
  number: "a number",
  int: "a whole number",
  array: "a list, as [ring, tape]",
  object: "nested keys",
  boolean: "true or false",
};

/** The value a key path leads to; undefined where there is none. */
export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      inner === null || typeof inner !== "object" ? undefined : (inner as Record<PropertyKey, unknown>)[key],
    value,
  );
}

const quoted = (value: unknown) =>
  typeof value === "string" ? `"${value}"` : (JSON.stringify(value) ?? "this");
