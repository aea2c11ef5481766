import type { Concept } from "../../../schema/languages/languages.js";

/** What a column name speaks of when it names a field; `weight` where that alone is a weak sign. */
export interface Signature {
  readonly needs: readonly Concept[];
  readonly also?: readonly Concept[];
  readonly weight?: number;
}

/** How a column is called that tells of a return. */
export const milestone = (concept: Concept): readonly Signature[] => [
  { needs: [concept], also: ["return", "climbing", "date", "previous", "level", "duration", "start"] },
  { needs: ["return", "climbing"], also: ["date", "duration"], weight: 0.7 },
  { needs: ["return"], also: ["date", "duration"], weight: 0.7 },
];
