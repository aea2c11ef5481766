import { derivedVariables } from "./derived-variables.js";
import type { Field } from "./field.js";
import { type Table, tables } from "./tables.js";

/** A stored term or the name of a field in the words of a reader: `full_climbing` becomes "full climbing". */
export const labelOf = (term: string): string => irregular.get(term) ?? term.replaceAll("_", " ");

const ofField = ({ name, label }: Field): readonly (readonly [string, string])[] =>
  label === undefined ? [] : [[name, label]];

const irregular: ReadonlyMap<string, string> = new Map([
  ...Object.values(tables as unknown as Readonly<Record<string, Table>>).flatMap(({ fields }) =>
    fields.flatMap(ofField),
  ),
  ...Object.entries(derivedVariables).map(([name, { label }]) => [name, label] as const),
  ["4_undivided", "4, a or b not recorded"],
  ["not_read", "recorded but not read"],
  ["order_not_known", "several, the first not known"],
]);
