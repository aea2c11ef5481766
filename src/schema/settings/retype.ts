import type { z } from "zod";
import { valueAt } from "./settings-problems.js";
import type { Written } from "./written-value.js";

const decimal = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;

/**
 * Puts a text where a text is asked for and a number where a number is, wherever the value stands without quotation
 * marks. Whatever else is amiss stays as it is.
 *
 * @param issues what the schema has found
 * @returns whether anything was changed
 */
export function retypeAsExpected(
  issues: readonly z.core.$ZodIssue[],
  { whole, written }: { readonly whole: Written; readonly written: unknown },
): boolean {
  let isChanged = false;
  for (const issue of issues) {
    const asked = askedFor(issue);
    const last = issue.path.at(-1);
    if (asked === null || last === undefined) continue;
    const plain = plainAt(whole, issue.path);
    const value = valueAt(written, issue.path);
    if (plain === null || value === null) continue;
    const wanted = asked === "text" ? plain : decimal.test(plain) ? Number(plain) : Number.NaN;
    if (wanted === value || (typeof wanted === "number" && !Number.isFinite(wanted))) continue;
    (valueAt(written, issue.path.slice(0, -1)) as Record<PropertyKey, unknown>)[last] = wanted;
    isChanged = true;
  }
  return isChanged;
}

function askedFor(issue: z.core.$ZodIssue): "text" | "number" | null {
  if (issue.code === "invalid_type") {
    if (issue.expected === "string") return "text";
    return issue.expected === "number" || issue.expected === "int" ? "number" : null;
  }
  if (issue.code !== "invalid_union") return null;
  const inner = issue.errors.flat().filter(({ path }) => path.length === 0);
  return inner.some((each) => askedFor(each) === "text") ? "text" : null;
}

function plainAt(whole: Written, path: readonly PropertyKey[]): string | null {
  let found: Written | undefined = whole;
  for (const key of path) found = found?.inner.get(String(key));
  return found?.plain ?? null;
}
