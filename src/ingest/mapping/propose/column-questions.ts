import type { Field } from "../../../schema/field.js";
import type { Undecided } from "../mapping.js";
import { meaningKey } from "../meaning.js";
import { contentReader } from "./content.js";
import type { FileOrder } from "./date-orders.js";
import type { Guess } from "./guess.js";
import type { Matching, Settled } from "./match-columns.js";
import { fieldsMeasured } from "./measurements.js";
import type { Profile } from "./profile.js";
import { questionAboutColumn, questionAboutMeaning } from "./questions.js";
import type { Dated } from "./sequence.js";

/** What is known when the columns of a file are asked about. */
export interface ColumnsGuessed {
  readonly fields: readonly Field[];
  readonly profiles: readonly Profile[];
  readonly matching: Matching;
  readonly settled: Settled;
  readonly order: FileOrder;
  readonly dated: readonly Dated[];
}

const mostChoices = 6;
/** What hardly a cell can be read as is no choice. */
const leastReadable = 0.5;
/** From here on the name of a column says what it is of, though not surely. */
const leastNamed = 0.6;
/** Columns without a guess that are asked about; what is left out beyond that is listed. */
const mostLeft = 20;

/**
 * Questions about columns: what a column holds where two meanings fit alike; where what every row needs stands; and
 * what a column without a guess holds when it clearly measures something.
 */
export function questionsAboutColumns(
  guesses: readonly Guess[],
  { fields, profiles, matching, settled, order, dated }: ColumnsGuessed,
): readonly Undecided[] {
  const given = guesses.filter(({ confidence }) => confidence !== "unsure");
  const taken = new Set(given.map(({ field }) => field.name));
  for (const [field, column] of settled) if (column === null) taken.add(field);
  const unsure = guesses.filter(({ confidence }) => confidence === "unsure");
  const meanings = unsure.map(({ field, sources }) => {
    const profile = profiles.find(({ name }) => name === sources[0])!;
    const others = (matching.couldBe.get(profile.name) ?? [])
      .filter(({ content }) => (content().share ?? 1) >= leastReadable)
      .map((pair) => pair.field);
    const neededToo = fields.filter(
      (other) =>
        other.required &&
        other.when !== undefined &&
        field.when !== undefined &&
        !taken.has(other.name) &&
        (contentReader(other)(profile).share ?? 0) >= leastReadable,
    );
    const free = [...new Set([field, ...others.filter((other) => !taken.has(other.name)), ...neededToo])];
    return questionAboutMeaning(profile, { fields: free.slice(0, mostChoices), order });
  });
  const asked = new Set(meanings.flatMap(({ choices }) => Object.keys(choices)));
  const used = new Set(guesses.flatMap(({ sources }) => sources));
  const left = profiles.filter((profile) => !used.has(profile.name));
  const missing = fields
    .filter(
      ({ name, required }) => required && !taken.has(name) && !asked.has(name) && settled.get(name) !== null,
    )
    .map((field) => questionAboutColumn(field, { left }));
  const decided = new Set([...taken, ...missing.flatMap(({ decides }) => decides.map(([, name]) => name!))]);
  const free = fields.filter(({ name }) => !decided.has(name));
  // the only candidate for what every row needs is asked about already
  const open = left.filter(({ name }) => !missing.some(({ choices }) => isOnly(name, choices)));
  const measured: Undecided[] = [];
  for (const profile of open) {
    if (measured.length === mostLeft) break;
    const shown = fieldsMeasured(profile, { free, matching, order, dated });
    const fits = [...new Set([...shown, ...fieldsNamed(profile, { free, matching })])];
    if (fits.length > 0) measured.push(questionAboutMeaning(profile, { fields: fits, order }));
  }
  return [...meanings, ...missing, ...measured];
}

/** A column whose name speaks of a field is asked about, whatever its cells hold. */
function fieldsNamed(
  profile: Profile,
  { free, matching }: Pick<ColumnsGuessed, "matching"> & { readonly free: readonly Field[] },
): readonly Field[] {
  if (profile.filled.length === 0) return [];
  const named = (matching.named.get(profile.name) ?? []).filter(({ field }) => free.includes(field));
  const [best] = named;
  return best === undefined || best.name < leastNamed
    ? []
    : named.filter(({ name }) => name >= best.name / 2).map(({ field }) => field);
}

const isOnly = (name: string, choices: Readonly<Record<string, string>>): boolean =>
  Object.hasOwn(choices, name) && Object.keys(choices).length === 1;

/** Columns of a file that questions are about. */
export const columnsAsked = (questions: readonly Undecided[]): ReadonlySet<string> =>
  new Set(
    questions.flatMap(({ decides }) =>
      decides.filter(([key]) => key === meaningKey).map(([, name]) => name!),
    ),
  );
