import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { isAge } from "../apply/age-text.js";
import { type ColumnRule, isKey, type Undecided } from "../mapping.js";
import { meaningKey, notUsedAnswer } from "../meaning.js";
import { birthRule } from "./births.js";
import { contentReader } from "./content.js";
import type { FileOrder } from "./date-orders.js";
import { exampleOf, type Profile } from "./profile.js";
import { withReadings } from "./readings.js";

/** What a column holds, where two or more of our columns fit alike or none is named. */
export function questionAboutMeaning(
  profile: Profile,
  { fields, order }: { readonly fields: readonly Field[]; readonly order: FileOrder },
): Undecided {
  const choices = fields.map((field) => choiceOf(field, { profile, order }));
  const reads = choices.filter(({ read }) => Object.keys(read).length > 0);
  const isPersonal = reads.some(({ read }) => read.born_on !== undefined);
  return {
    question: `What does the column "${profile.name}" contain?`,
    decides: [[meaningKey, profile.name]],
    ...(isPersonal ? {} : exampleOf(profile)),
    choices: {
      ...Object.fromEntries(choices.map(({ name, says }) => [name, says])),
      [notUsedAnswer]: "none of these: do not use the column",
    },
    ...(reads.length === 0 ? {} : { reads: Object.fromEntries(reads.map(({ name, read }) => [name, read])) }),
  };
}

/** A field that a column may hold, in words, and how its cells would then be read. */
function choiceOf(
  field: Field,
  { profile, order }: { readonly profile: Profile; readonly order: FileOrder },
): { readonly name: string; readonly says: string; readonly read: ColumnRule } {
  const { name } = field;
  const births = isAge(field) ? birthRule(profile) : null;
  if (births !== null)
    return { name, says: "age on the day of the injury, computed from the births", read: births };
  const rule = { from: profile.name };
  const guess = { field, sources: [profile.name], rule, confidence: "unsure", evidence: [] } as const;
  const { unit, counted, fractions, date_order } = withReadings(guess, { profile, order }).guess.rule;
  const read = {
    ...(unit === undefined ? {} : { unit }),
    ...(counted === undefined ? {} : { counted }),
    ...(fractions === undefined ? {} : { fractions }),
    ...(date_order === undefined ? {} : { date_order }),
  };
  return { name, says: shortly(field), read };
}

const mostCandidates = 12;

/** Which column holds what every row needs. */
export function questionAboutColumn(
  field: Field,
  { left }: { readonly left: readonly Profile[] },
): Undecided {
  const read = contentReader(field);
  const fitting = left.filter((profile) => (read(profile).share ?? 0) >= 0.5);
  const candidates = (fitting.length === 0 ? left : fitting)
    .filter(({ name }) => isKey(name))
    .slice(0, mostCandidates);
  return {
    question: `Which column contains ${field.name} (${shortly(field)})? Every row needs it.`,
    decides: [["columns", field.name, "from"]],
    choices: Object.fromEntries(candidates.map((profile) => [profile.name, describe(profile)])),
  };
}

/** What a field holds, without its further explanations. */
const shortly = ({ description }: Field): string => description.split(";")[0]!;

const describe = (profile: Profile): string => {
  const { example } = exampleOf(profile);
  return `filled in ${profile.filled.length} of ${counted(profile.cells.length, "row", "rows")}${example === undefined ? "" : `, for example ${quoted(example)}`}`;
};

const quoted = (cell: string): string => `"${cell.length > 30 ? `${cell.slice(0, 30)}…` : cell}"`;
