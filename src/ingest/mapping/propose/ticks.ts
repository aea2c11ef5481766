import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { oneTerm } from "../cell-words.js";
import type { Guess } from "./guess.js";
import { countPassing, type Profile } from "./profile.js";

/** Whether a cell ticks, unticks, or gives the extent of the pulley its column is named after. */
export const isTick = (cell: string): boolean =>
  oneTerm(cell, { kind: "yes_no" }) !== null || oneTerm(cell, { kind: "extent" }) !== null;

/** Columns named after one pulley each, whose cells tick it or give its extent. */
export function tickedColumns(profiles: readonly Profile[]): readonly Profile[] {
  const ticked = profiles.filter((profile) => {
    const { pulley, segments, unknown } = profile.read;
    const isNamedAfter =
      pulley !== null &&
      unknown.length === 0 &&
      segments.every(({ concepts }) => concepts.has("pulley") || concepts.has("injury"));
    return isNamedAfter && countPassing(profile, isTick) === profile.filled.length;
  });
  const pulleys = new Set(ticked.map(({ read }) => read.pulley));
  return pulleys.size === ticked.length ? ticked : [];
}

/** Pulleys ticked in columns of their own, and their extents where the cells give them. */
export function guessesFromTicks(ticked: readonly Profile[], fields: readonly Field[]): readonly Guess[] {
  if (ticked.length === 0) return [];
  const sources = ticked.map(({ name }) => name);
  const rule = { ticked: Object.fromEntries(ticked.map(({ read, name }) => [read.pulley!, name])) };
  const withExtent = ticked.reduce((sum, profile) => sum + countPassing(profile, givesExtent), 0);
  const filled = ticked.reduce((sum, profile) => sum + profile.filled.length, 0);
  const evidence = [
    `columns named ${sources.map((name) => `"${name}"`).join(", ")}`,
    `every filled cell (${filled} in total) ticks the pulley or gives its extent`,
  ];
  return fields.flatMap((field): Guess[] => {
    if (field.name === "pulleys") return [{ field, sources, rule, confidence: "sure", evidence }];
    if (field.name !== "pulley_extents" || withExtent === 0) return [];
    const extents = `extents in ${withExtent} of ${counted(filled, "filled cell", "filled cells")}`;
    return [{ field, sources, rule, confidence: "sure", evidence: [evidence[0]!, extents] }];
  });
}

const givesExtent = (cell: string): boolean => oneTerm(cell, { kind: "extent" }) !== null;
