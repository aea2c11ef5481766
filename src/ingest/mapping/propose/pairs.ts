import type { Field } from "../../../schema/field.js";
import { type Content, contentReader, unmistakableReader } from "./content.js";
import type { Profile } from "./profile.js";
import { nameScore } from "./read-name.js";

/** A field and a column of the file held together. */
export interface Pair {
  readonly field: Field;
  readonly profile: Profile;
  /** How well the name fits, 0 to 1. */
  readonly name: number;
  /** How well the cells fit; counted where it is asked for, since few pairs come so far. */
  readonly content: () => Content;
  /** Both together, 0 to 1; 0 where the two cannot belong together. */
  readonly total: number;
}

const ofName = 0.7;
const ofContent = 0.3;
/** Below this share of readable cells a column is not of the field, whatever its name says. */
const leastShare = 0.5;
const leastTotal = 0.33;
/** A column that is called just like the field is asked about, even if its cells say otherwise. */
const plainName = 0.8;
const ofNameAgainstCells = 0.3;
/** A name that says less is as good as none. */
const leastName = 0.3;
/** What cells alone are worth when nearly all can be read and nothing else looks like them. */
const ofContentAlone = 0.42;
const leastShareAlone = 0.9;

/** Name and cells together: 0.7 of how the name fits and 0.3 of how the cells fit. */
export function pairsOf(field: Field, profiles: readonly Profile[]): readonly Pair[] {
  const read = contentReader(field);
  const isUnmistakable = unmistakableReader(field);
  return profiles.map((profile) => {
    const name = nameScore(profile.read, field);
    const content = () => read(profile);
    const speaks =
      name >= leastName || (profile.distinct.size >= 2 && isUnmistakable(profile, leastShareAlone));
    return { field, profile, name, content, total: speaks ? totalOf(name, content()) : 0 };
  });
}

/** Of a pair for which the name speaks, or else the cells alone. */
function totalOf(name: number, { share, power }: Content): number {
  if (share === null) return name >= 0.7 ? ofName * name : 0;
  if (share < leastShare) return name >= plainName ? ofNameAgainstCells * name : 0;
  if (name < leastName) return ofContentAlone * share;
  const total = ofName * name + ofContent * share * (power < 0.3 ? 0.7 : 1);
  return total < leastTotal ? 0 : total;
}
