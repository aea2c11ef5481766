import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Shortfall } from "../../study/results.js";
import { groupWords } from "../group-phrases.js";
import { listed } from "../phrases.js";
import { codeWords } from "../terms.js";

/** The facts of one shortfall in words. */
export interface TrialFacts {
  readonly n: number;
  /** "5 of 23". */
  readonly counts: string;
  /** "5 of 23 injuries". */
  readonly injuries: string;
  /** The verb for so many. */
  readonly verb: (one: string, many: string) => string;
  readonly text: (name: string) => string;
  /** The group, after "injuries": "with a ring". */
  readonly among: (name?: string) => string;
  /** The parts of a text that are divided by |, each with the values after its =. */
  readonly parts: (name: string) => readonly (readonly [code: string, ...values: string[]])[];
}

export function trialFacts({ facts }: Shortfall): TrialFacts {
  const text = (name: string) => String(facts[name] ?? "");
  const n = Number(facts.n ?? 0);
  const counts = facts.of === undefined ? String(n) : `${n} of ${facts.of}`;
  return {
    n,
    counts,
    injuries:
      facts.of === undefined
        ? counted(n, "injury", "injuries")
        : `${n} of ${counted(Number(facts.of), "injury", "injuries")}`,
    verb: (one, many) => (n === 1 ? one : many),
    text,
    among: (name = "group") => groupWords({ by: "first_treatment", label: text(name) }).among,
    parts: (name) =>
      text(name) === ""
        ? []
        : text(name)
            .split("|")
            .map((part) => part.split("=") as [string, ...string[]]),
  };
}

/** "rest in 4 and rehabilitation in 1", or "rest" where it is one alone. */
export function treatmentsIn(
  parts: ReturnType<TrialFacts["parts"]>,
  { of }: { readonly of: number },
): string {
  const [only] = parts;
  if (parts.length === 1 && Number(only![1]) === of) return labelOf(only![0]);
  return listed(parts.map(([code, n]) => `${labelOf(code)} in ${n}`));
}

/** Codes with their counts, in the words given for them: "the finger was not asked about (3)". */
export const codesIn = (
  parts: ReturnType<TrialFacts["parts"]>,
  wordsOf: (code: string) => string = codeWords,
): string => parts.map(([code, n]) => `${wordsOf(code)} (${n})`).join("; ");
