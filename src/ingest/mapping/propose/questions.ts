import type { Field } from "../../../schema/field.js";
import type { Undecided } from "../mapping.js";
import { meaningKey, notUsedAnswer } from "../meaning.js";
import { contentReader } from "./content.js";
import type { Guess } from "./guess.js";
import type { Matching } from "./match-columns.js";
import type { Profile } from "./profile.js";

const mostChoices = 6;

/** What a column holds, where two or more of our columns fit alike. */
export function questionAboutMeaning(
  { sources, field }: Guess,
  {
    matching,
    profiles,
    taken,
  }: {
    readonly matching: Matching;
    readonly profiles: readonly Profile[];
    /** Fields that have a column already. */
    readonly taken: ReadonlySet<string>;
  },
): Undecided {
  const name = sources[0]!;
  const others = (matching.couldBe.get(name) ?? []).map((pair) => pair.field);
  const free = [field, ...others.filter((other) => other !== field && !taken.has(other.name))];
  const choices = free.slice(0, mostChoices).map((each) => [each.name, shortly(each)]);
  return {
    question: `What does the column "${name}" hold?`,
    decides: [[meaningKey, name]],
    ...exampleOf(profiles.find((profile) => profile.name === name)),
    choices: { ...Object.fromEntries(choices), [notUsedAnswer]: "none of these: leave the column out" },
  };
}

/** Which column holds what every row needs; null where no column is left that could. */
export function questionAboutColumn(
  field: Field,
  { left }: { readonly left: readonly Profile[] },
): Undecided {
  const read = contentReader(field);
  const fitting = left.filter((profile) => (read(profile).share ?? 0) >= 0.5);
  const candidates = (fitting.length === 0 ? left : fitting).slice(0, mostChoices * 2);
  return {
    question: `Which column holds ${field.name} (${shortly(field)})? Every row needs it.`,
    decides: [["columns", field.name, "from"]],
    choices: Object.fromEntries(candidates.map((profile) => [profile.name, describe(profile)])),
  };
}

/** What a field holds, without its further explanations. */
const shortly = ({ description }: Field): string => description.split(";")[0]!;

const describe = ({ filled, cells, distinct }: Profile): string => {
  const example = distinct.keys().next().value;
  return `${filled.length} of ${cells.length} rows filled${example === undefined ? "" : `, as ${quoted(example)}`}`;
};

const quoted = (cell: string): string => `"${cell.length > 30 ? `${cell.slice(0, 30)}…` : cell}"`;

/** An example cell, for a person to recognise the column by. */
export function exampleOf(profile: Pick<Profile, "distinct"> | undefined): { example?: string } {
  const cell = profile?.distinct.keys().next().value;
  return cell === undefined ? {} : { example: cell };
}
