import type { z } from "zod";
import { parseYaml } from "./parse-yaml.js";
import { retypeAsExpected } from "./retype.js";
import type { SettingsProblem } from "./settings-error.js";
import { keysAt, type Place, problemsOf, type SettingsForm } from "./settings-problems.js";
import { type Written, writtenValue } from "./written-value.js";

/** Settings as they were read: their typed value, or why there is none. */
export interface ReadSettings<Value> {
  /** Null when there are problems. */
  readonly value: Value | null;
  readonly problems: readonly SettingsProblem[];
  /** What the file says, before any default is filled in. */
  readonly written: unknown;
  /** Where a key path stands, for problems that only show when keys are compared. */
  readonly place: Place;
}

/**
 * Reads a file of settings, YAML 1.2, by its schema. A value is read as its key asks: 007 is a text where a text is
 * asked for, and a number where a number is.
 *
 * @param text the text of the file
 * @returns the typed value, or all problems at once, each with its line and column
 */
export function readSettings<Value>(text: string, form: SettingsForm): ReadSettings<Value> {
  const { contents, problems: ofYaml, placeAt } = parseYaml(text);
  if (ofYaml.length > 0) return unread(ofYaml);
  const { written: whole, problems } = writtenValue(contents, placeAt);
  const place: Place = (path) => placeAt(offsetOf(whole, path));
  const foreign = foreignTo(form, whole);
  if (foreign !== null) return unread([foreign]);
  const written = whole.value ?? {};
  const read = parsedAsAsked<Value>(form.schema, { whole, written });
  const ofSchema = (read.error?.issues ?? []).flatMap((issue) => problemsOf(issue, { form, place, written }));
  const all = [...problems, ...ofSchema];
  return { value: read.success && all.length === 0 ? read.data : null, problems: all, written, place };
}

/** Settings that stand in no file, checked against their schema. */
export function checkSettings<Value>(written: unknown, form: SettingsForm): ReadSettings<Value> {
  const place: Place = () => ({ line: null, column: null });
  const read = form.schema.safeParse(written) as z.ZodSafeParseResult<Value>;
  const problems = (read.error?.issues ?? []).flatMap((issue) => problemsOf(issue, { form, place, written }));
  return { value: read.success ? read.data : null, problems, written, place };
}

const unread = (problems: readonly SettingsProblem[]): ReadSettings<never> => ({
  value: null,
  problems,
  written: undefined,
  place: () => ({ line: 1, column: 1 }),
});

function parsedAsAsked<Value>(
  schema: z.ZodType,
  { whole, written }: { readonly whole: Written; readonly written: unknown },
): z.ZodSafeParseResult<Value> {
  const read = schema.safeParse(written);
  const isRetyped = !read.success && retypeAsExpected(read.error.issues, { whole, written });
  return (isRetyped ? schema.safeParse(written) : read) as z.ZodSafeParseResult<Value>;
}

/** Of a file that holds none of our keys nothing is repeated: it may be anything, and secret. */
function foreignTo({ schema, what }: SettingsForm, { value, inner }: Written): SettingsProblem | null {
  if (value === undefined || value === null) return null;
  const known = keysAt(schema, []);
  const correction = `Check that it is the right file. ${capital(what)} begins with these keys: ${known.slice(0, 4).join(", ")}.`;
  const here = { line: 1, column: 1, at: "", correction };
  if (typeof value !== "object" || Array.isArray(value)) {
    const kind = Array.isArray(value) ? "a list" : "plain text";
    return {
      ...here,
      expected: `this file cannot be used as ${what}: it contains ${kind} instead of keys and values.`,
    };
  }
  if (inner.size === 0 || known.some((key) => inner.has(key))) return null;
  return {
    ...here,
    expected: `this file cannot be used as ${what}: ${inner.size === 1 ? "its only key does not belong" : `none of its ${inner.size} keys belongs`} there.`,
  };
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Where a key path stands; the nearest parent that exists, for a key that is missing. */
function offsetOf(whole: Written, path: readonly PropertyKey[]): number {
  let found = whole;
  for (const key of path) {
    const next = found.inner.get(String(key));
    if (next === undefined) break;
    found = next;
  }
  return found.at;
}
