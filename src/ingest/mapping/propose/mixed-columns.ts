import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { codedReader } from "../apply/coded-text.js";
import { askAnswer, blankAnswer, isKey, type Undecided } from "../mapping.js";
import { type CellPart, mixedFields, type PartKind, partOfMixed, partsOfCell } from "../mixed-cell.js";
import type { Guess } from "./guess.js";
import type { Profile } from "./profile.js";

/** The share of the different cells that must speak of several things. */
const leastMixed = 0.3;
/** The share of the different cells in which a further field must stand. */
const leastSaid = 0.2;
/** Longer cells are prose. */
const longestCell = 60;
/** More words than this are left to the rows. */
const mostWords = 12;

/** What a number or a suspicion is taken for, to see whether the rest of a cell can be read. */
const tried = { mixed: { number: "grade", suspected: "taken" }, ranges: "ends" } as const;
/** The same column may already hold these two. */
const subjects: readonly (readonly PartKind[])[] = [["pulley"], ["grade"], ["finger", "hand"]];

const partsIn = (cell: string): readonly CellPart[] => partsOfCell(cell, tried) ?? [];

/** Whether a cell holds several of a pulley, a grade and a finger, a suspicion of one, or a number beside one that is not its own. */
function isMixed(cell: string, fingerReaders: readonly ((cell: string) => string | null)[]): boolean {
  if (cell.length > longestCell) return false;
  const kinds = new Set(partsIn(cell).map(({ kind }) => kind));
  const spoken = subjects.filter((own) => own.some((kind) => kinds.has(kind))).length;
  if (spoken > 1 || (spoken === 1 && kinds.has("suspected"))) return true;
  const hasNumber = kinds.has("number") && (kinds.has("finger") || kinds.has("pulley"));
  return hasNumber && fingerReaders.every((read) => read(cell) === null);
}

/**
 * Columns whose cells hold several things, "V.a. A2 Riss Grad III" or "2 re. RF": each of our columns that no other column
 * of the file is given to reads its part.
 */
function guessesFromMixed(
  guesses: readonly Guess[],
  { fields, profiles }: { readonly fields: readonly Field[]; readonly profiles: readonly Profile[] },
): readonly Guess[] {
  const own = fields.filter(({ name }) => mixedFields.includes(name));
  const finger = own.find(({ name }) => name === "finger");
  const readers =
    finger === undefined
      ? []
      : (["with_thumb", "without_thumb"] as const).map((numbered) => codedReader(finger, { numbered }));
  const isGiven = (field: Field) =>
    guesses.some((guess) => guess.field === field && guess.confidence !== "unsure");
  const taken = new Set(
    guesses
      .filter(({ field, confidence }) => !own.includes(field) && confidence !== "unsure")
      .flatMap(({ sources }) => sources),
  );
  const found = profiles.filter(
    (profile) => !taken.has(profile.name) && shareOf(profile, (cell) => isMixed(cell, readers)) >= leastMixed,
  );
  const given = new Set(own.filter(isGiven).map(({ name }) => name));
  return found.flatMap((profile): Guess[] => {
    const parts = own.filter((field) => {
      const isOwn = guesses.some((guess) => guess.field === field && guess.rule.from === profile.name);
      return (isOwn || !given.has(field.name)) && shareOf(profile, says(field)) >= leastSaid;
    });
    for (const { name } of parts) given.add(name);
    return parts.map((field) => ({
      field,
      sources: [profile.name],
      rule: { from: profile.name, mixed: {} },
      confidence: "likely",
      evidence: [`its part of the cells of "${profile.name}", which hold several things`],
    }));
  });
}

/** Guesses with the fields that are read from mixed cells, in place of the same fields read from whole cells. */
export function withMixed(
  split: readonly Guess[],
  {
    own,
    ...sheet
  }: {
    readonly own: readonly Guess[];
    readonly fields: readonly Field[];
    readonly profiles: readonly Profile[];
  },
): readonly Guess[] {
  const mixed = guessesFromMixed([...own, ...split], sheet);
  return [...split.filter(({ field }) => !mixed.some((guess) => guess.field === field)), ...mixed];
}

const says =
  (field: Field) =>
  (cell: string): boolean => {
    const text = partOfMixed(withoutUnknown(cell), field, tried);
    return text !== null && text !== "";
  };

const withoutUnknown = (cell: string): string =>
  partsIn(cell)
    .filter(({ kind }) => kind !== "unknown")
    .map(({ text }) => text)
    .join(" ");

function shareOf({ distinct }: Profile, test: (cell: string) => boolean): number {
  const cells = [...distinct.keys()];
  return cells.length === 0 ? 0 : cells.filter(test).length / cells.length;
}

/** What is asked about the mixed cells of a column, once for all of them, and answered for every column of ours that reads them. */
export function questionsAboutMixed(
  guesses: readonly Guess[],
  profiles: readonly Profile[],
): readonly Undecided[] {
  const mixed = guesses.filter(({ rule, confidence }) => rule.mixed !== undefined && confidence !== "unsure");
  return profiles.flatMap((profile) => {
    const own = mixed.filter(({ rule }) => rule.from === profile.name);
    if (own.length === 0) return [];
    const pathsTo = (...keys: string[]) => own.map(({ field }) => ["columns", field.name, ...keys]);
    const settled = own[0]!.rule;
    return [
      ...(settled.mixed?.number === undefined ? aboutNumbers(profile, pathsTo("mixed", "number")) : []),
      ...(settled.mixed?.suspected === undefined
        ? aboutSuspicion(profile, pathsTo("mixed", "suspected"))
        : []),
      ...(settled.ranges === undefined ? aboutRanges(profile, pathsTo("ranges")) : []),
      ...aboutWords(profile, { values: settled.values ?? {}, pathsTo }),
    ];
  });
}

type Paths = Undecided["decides"];

/** The cells with a part of a kind, as a question shows them. */
export function cellsWith({ distinct }: Profile, test: (cell: string) => boolean) {
  const found = [...distinct].filter(([cell]) => test(cell));
  const rows = found.reduce((sum, [, times]) => sum + times, 0);
  const shown = found
    .slice(0, 3)
    .map(([cell]) => `"${cell}"`)
    .join(", ");
  return { example: found[0]?.[0], said: `${shown} (${counted(rows, "row", "rows")})` };
}

const holds =
  (kind: PartKind) =>
  (cell: string): boolean =>
    partsIn(cell).some((part) => part.kind === kind);

function aboutNumbers(profile: Profile, decides: Paths): readonly Undecided[] {
  const { example, said } = cellsWith(profile, holds("number"));
  if (example === undefined) return [];
  return [
    {
      question: `What is the number that stands alone in cells of the column "${profile.name}" such as ${said}?`,
      decides,
      example,
      choices: {
        grade: "the grade",
        finger_with_thumb: "the finger, counted from the thumb: 4 is the ring finger",
        finger_without_thumb: "the finger, counted from the index finger: 4 is the little finger",
        nothing: "nothing that is needed",
      },
    },
  ];
}

function aboutSuspicion(profile: Profile, decides: Paths): readonly Undecided[] {
  const { example, said } = cellsWith(profile, holds("suspected"));
  if (example === undefined) return [];
  return [
    {
      question: `Cells of the column "${profile.name}" say that something is only suspected, such as ${said}. How should they be read?`,
      decides,
      example,
      choices: {
        taken: "as written: the suspicion counts as the finding",
        grade_unknown: "pulleys and fingers as written; grade and extents as not known",
        asked: "not decided: raise a query about each row",
      },
    },
  ];
}

function aboutRanges(profile: Profile, decides: Paths): readonly Undecided[] {
  const { example, said } = cellsWith(profile, (cell) => partsOfCell(cell, {}) === null);
  return example === undefined ? [] : [rangeQuestion(profile, { decides, example, said })];
}

/** What a range of pulleys means, asked once for every range of a column. */
export const rangeQuestion = (
  { name }: Pick<Profile, "name">,
  {
    decides,
    example,
    said,
  }: { readonly decides: Paths; readonly example: string | undefined; readonly said: string },
): Undecided => ({
  question: `Which pulleys are meant by ranges in the column "${name}" such as ${said}?`,
  decides,
  ...(example === undefined ? {} : { example }),
  choices: {
    ends: "the two that are named",
    between: "these two and everything between them",
    asked: "not clear: raise a query about each row",
  },
});

function aboutWords(
  { name, distinct }: Profile,
  {
    values,
    pathsTo,
  }: {
    readonly values: Readonly<Record<string, string>>;
    readonly pathsTo: (...keys: string[]) => Paths;
  },
): readonly Undecided[] {
  const times = new Map<string, { rows: number; example: string }>();
  for (const [cell, rows] of distinct)
    for (const { kind, text } of partsOfCell(cell, { ...tried, values }) ?? [])
      if (kind === "unknown" && isKey(text)) {
        const before = times.get(text);
        times.set(text, { rows: (before?.rows ?? 0) + rows, example: before?.example ?? cell });
      }
  return [...times].slice(0, mostWords).map(([word, { rows, example }]) => ({
    question: `What does the word "${word}" say in cells of the column "${name}"? It appears in ${counted(rows, "row", "rows")}.`,
    decides: pathsTo("values", word),
    example,
    choices: {
      [askAnswer]: "it changes what the cell says: raise a query about each row",
      [blankAnswer]: "nothing that is needed: the rest of the cell is read without it",
    },
  }));
}
