import type { z } from "zod";
import { counted } from "../counted.js";
import { nearest } from "../near.js";
import { quoted, visible } from "../words/wording.js";
import type { SettingsProblem } from "./settings-error.js";

/** The keys that lead to a value. */
export type Path = readonly PropertyKey[];
/** Where a key path stands in the file; null in settings that stand in none. */
export type Place = (path: Path) => { line: number | null; column: number | null };

/** More unknown keys of one place are not told one by one. */
const mostUnknown = 100;
const longestKey = 60;

/** A key path as messages name it. */
export const pathText = (path: Path): string => path.map((key) => visible(String(key), longestKey)).join(".");

/** What a file of settings may hold, and what to call it. */
export interface SettingsForm {
  readonly schema: z.ZodType;
  /** As "the study file". */
  readonly what: string;
  /** A further sentence for a word that is none of those allowed, where it is worth one. */
  readonly adviceFor?: (found: unknown) => string | null;
}

interface Written {
  readonly form: SettingsForm;
  readonly place: Place;
  readonly written: unknown;
}

/** The problems one schema issue stands for, in words. */
export function problemsOf(issue: z.core.$ZodIssue, about: Written): readonly SettingsProblem[] {
  const at = pathText(issue.path);
  if (issue.code === "unrecognized_keys")
    return issue.keys.slice(0, mostUnknown).map((key) => unknownKey(key, issue.path, about));
  const found = valueAt(about.written, issue.path);
  const here = about.place(issue.path);
  if (found === undefined) {
    return [
      {
        ...here,
        at,
        expected: "is missing.",
        correction: `Add the key. Its value is ${requirementOf(issue)}.`,
      },
    ];
  }
  const correction = correctionOf(issue, { found, adviceFor: about.form.adviceFor });
  return [{ ...here, at, expected: `${shown(found)} cannot be used.`, correction }];
}

function unknownKey(key: string, path: Path, { form, place }: Written): SettingsProblem {
  const known = keysAt(form.schema, path);
  const near = nearest(key, known);
  return {
    ...place([...path, key]),
    at: pathText([...path, key]),
    expected: `is not a key of ${form.what}.`,
    correction: `${near === null ? "" : `Did you mean "${near}"? `}The keys allowed here are: ${known.join(", ")}.`,
  };
}

/** Keys a schema knows at a path. */
export function keysAt(whole: z.ZodType, path: Path): readonly string[] {
  let schema: Wrapped = unwrapped(whole);
  for (const key of path) {
    const { shape, def } = schema;
    schema = unwrapped(shape?.[String(key)] ?? def?.valueType ?? def?.element);
  }
  return Object.keys(schema.shape ?? {});
}

interface Wrapped {
  readonly shape?: Record<string, unknown>;
  readonly def?: {
    readonly innerType?: unknown;
    /** Of a record. */
    readonly valueType?: unknown;
    /** Of an array. */
    readonly element?: unknown;
  };
}

function unwrapped(schema: unknown): Wrapped {
  let inner = schema as Wrapped | undefined;
  while (inner?.shape === undefined && inner?.def?.innerType !== undefined) inner = inner.def.innerType!;
  return inner ?? {};
}

function correctionOf(
  issue: z.core.$ZodIssue,
  { found, adviceFor }: { found: unknown; adviceFor: SettingsForm["adviceFor"] },
): string {
  const requirement = `Write ${requirementOf(issue)}.`;
  if (issue.code !== "invalid_value") return requirement;
  const near = nearest(String(found), issue.values.map(String));
  const advice = adviceFor?.(found) ?? null;
  return `${near === null ? "" : `Did you mean "${near}"? `}${requirement}${advice === null ? "" : ` ${advice}`}`;
}

function requirementOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_value":
      return `one of: ${issue.values.map(String).join(", ")}`;
    case "too_small":
      return issue.origin === "array"
        ? `a list of at least ${counted(Number(issue.minimum), "entry", "entries")}`
        : `a value of at least ${issue.minimum}`;
    case "too_big":
      return issue.origin === "array"
        ? `a list of at most ${counted(Number(issue.maximum), "entry", "entries")}`
        : `a value of at most ${issue.maximum}`;
    case "invalid_type":
      return typeWords[issue.expected] ?? issue.expected;
    case "invalid_format":
      return issue.format === "date" ? "a date in the form YYYY-MM-DD" : issue.message;
    case "invalid_union":
      return issue.errors
        .flatMap(([first]) => (first === undefined ? [] : [requirementOf(first)]))
        .join(", or ");
    default:
      return issue.message;
  }
}

const typeWords: Readonly<Record<string, string>> = {
  string: "a word or text",
  number: "a number",
  int: "a whole number",
  array: "a list, for example [ring, tape]",
  object: "a group of nested keys",
  record: "a group of nested keys",
  null: "null",
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

/** A value as messages repeat it: a list or nested keys are named by their kind only. */
function shown(value: unknown): string {
  if (typeof value === "string") return quoted(value);
  if (Array.isArray(value)) return `a list of ${counted(value.length, "entry", "entries")}`;
  if (value !== null && typeof value === "object") return "this group of nested keys";
  return value === null ? "nothing" : String(value);
}
