import { type IdentifyingKind, type IdentifyingPattern, identifyingPatterns } from "./patterns.js";

/** Something in a text that may tell who somebody is: what kind of thing, and where; never the text itself. */
export interface IdentifyingPlace {
  readonly kind: IdentifyingKind;
  /** First character, counted from 1. */
  readonly from: number;
  readonly length: number;
}

/** Texts are looked at up to here: a cell that is longer is no note. */
const longest = 100_000;

/**
 * Looks through a free text for what may tell who somebody is: addresses of mail, web, street; names after a title, a
 * salutation or a label; numbers of telephones and records; dates, and dates of birth among them.
 *
 * It knows forms, not names: a bare name, a nickname or a rare event passes it by. A text without findings is not
 * thereby free of them.
 *
 * @returns findings in the order of the text; of two that overlap the graver one
 * @example
 * scanText("call Dr. Berg on 0512 345 678") // => [{ kind: "name after a title", from: 6, length: 8 }, { kind: "telephone number", from: 18, length: 12 }]
 */
export function scanText(text: string): readonly IdentifyingPlace[] {
  const looked = text.slice(0, longest);
  const found: IdentifyingPlace[] = [];
  for (const pattern of identifyingPatterns) {
    if (!pattern.needs.test(looked)) continue;
    for (const place of placesOf(looked, pattern)) {
      if (!found.some((earlier) => overlap(earlier, place))) found.push(place);
    }
  }
  return found.sort((one, other) => one.from - other.from);
}

function* placesOf(text: string, { kind, pattern, holds }: IdentifyingPattern): Iterable<IdentifyingPlace> {
  for (const match of text.matchAll(pattern)) {
    if (holds?.(match[0]) ?? true) yield { kind, from: match.index + 1, length: match[0].length };
  }
}

const overlap = (one: IdentifyingPlace, other: IdentifyingPlace): boolean =>
  one.from < other.from + other.length && other.from < one.from + one.length;
