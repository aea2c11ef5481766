import type { Field } from "../../../schema/field.js";
import { type TableName, tables } from "../../../schema/tables.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import type { ColumnRule, Mapping, Undecided } from "../mapping.js";
import { sourcesOf } from "../mapping.js";
import { fileOrder, orderEvidence } from "./date-orders.js";
import { datedProfiles, dateFacts } from "./file-facts.js";
import { type Guess, lessSure } from "./guess.js";
import { earlierFor, keptGuesses, withEarlier } from "./keep-earlier.js";
import { type Matching, matchColumns, type Settled } from "./match-columns.js";
import { decimalSignOf, medianOf } from "./numbers.js";
import { type Profile, profilesOf } from "./profile.js";
import { questionAboutColumn, questionAboutMeaning } from "./questions.js";
import { type Readings, withReadings } from "./readings.js";
import { countReversals, datedOf, sequenceEvidence } from "./sequence.js";
import { guessesFromSplits } from "./splits.js";
import { guessesFromTicks, tickedColumns } from "./ticks.js";

export interface ProposeOptions {
  /** Short name of the mapping. */
  readonly name: string;
  readonly table: TableName;
  /** What a person has settled already: by field its column, or null for none. */
  readonly settled?: Settled;
  /** Columns of the file that a person has left out. */
  readonly notUsed?: readonly string[];
  /** A mapping of an earlier file from the same site: what still fits is kept. */
  readonly earlier?: Mapping;
}

/** A mapping proposed from a file alone, with the evidence for each guess. */
export interface Proposal {
  /** Holds the guesses that are sure or likely; everything else stands under `undecided`. */
  readonly mapping: Mapping;
  readonly guesses: readonly Guess[];
  /** Evidence for the settings that hold for the whole file, by key. */
  readonly evidence: Readonly<Record<string, string>>;
}

/**
 * Proposes how a file translates into one of our tables.
 *
 * Each column is held against each of our fields by its name (general vocabulary of five languages) and its cells
 * (share that can be read as the field); the assignment is one-to-one and the best in total. Where two readings fit
 * nearly alike, or nothing tells, there is a question and no guess.
 *
 * @param sheet the file taken apart
 */
export function proposeMapping(sheet: ShapedSheet, options: ProposeOptions): Proposal {
  const { earlier, settled = new Map<string, string | null>(), notUsed = [] } = options;
  if (earlier === undefined) return proposeAnew(sheet, { ...options, settled, notUsed });
  const kept = earlierFor(sheet, earlier);
  const proposal = proposeAnew(sheet, {
    ...options,
    settled: new Map([...kept.settled, ...settled]),
    notUsed: [...kept.notUsed, ...notUsed],
  });
  const fields: readonly Field[] = tables[options.table].fields;
  return {
    ...proposal,
    mapping: withEarlier(proposal.mapping, { earlier, rules: kept.rules }),
    guesses: [...proposal.guesses, ...keptGuesses(kept.rules, fields)].sort(
      (one, other) => fields.indexOf(one.field) - fields.indexOf(other.field),
    ),
  };
}

function proposeAnew(
  sheet: ShapedSheet,
  { name, table, settled, notUsed }: Omit<Required<ProposeOptions>, "earlier">,
): Proposal {
  const fields: readonly Field[] = tables[table].fields;
  const all = profilesOf(sheet);
  const profiles = all.filter((profile) => !notUsed.includes(profile.name));
  const { guesses: matched, matching } = guessColumns(profiles, { fields, settled });
  const evidence = datedProfiles(profiles).map(orderEvidence);
  const dated = datedOf(
    matched.filter(({ confidence }) => confidence !== "unsure"),
    profiles,
  );
  const order = fileOrder(evidence, (each) => countReversals(dated, each));
  const facts = dateFacts(order, evidence);
  const inSequence = matched.map((guess) => {
    const own = datedOf([guess], profiles)[0];
    const found =
      own === undefined || order.order === null
        ? null
        : sequenceEvidence(own, { others: dated, order: order.order });
    if (found === null) return guess;
    return found.fits
      ? { ...guess, evidence: [...guess.evidence, found.words] }
      : lessSure(guess, found.words);
  });
  const readings = inSequence.map((guess): Readings => {
    const profile = profiles.find((each) => each.name === guess.sources[0]);
    const isOneColumn = guess.rule.from !== undefined && profile !== undefined;
    return isOneColumn ? withReadings(guess, { profile, order }) : { guess, questions: [] };
  });
  const kept = readings.filter(({ guess }) => guess.confidence !== "unsure");
  const decimals = decimalSignOf(numericProfiles(kept, profiles));
  const questions = [
    ...questionsAboutColumns(inSequence, { fields, profiles, matching, settled }),
    ...facts.questions,
    ...kept.flatMap((each) => each.questions),
  ];
  const columns = Object.fromEntries(kept.map(({ guess }) => [guess.field.name, guess.rule]));
  const mapping: Mapping = {
    mapping: name,
    table,
    ...(sheet.sheet === null ? {} : { sheet: sheet.sheet }),
    leave_out_rows: [],
    ...facts.settings,
    decimal_sign: decimals.sign,
    columns,
    not_used: unusedColumns(all, { columns, questions }),
    undecided: questions,
    seen: {
      columns: sheet.columns.map((column) => column.name),
      rows: sheet.records.length,
      ...mediansOf(kept, profiles),
    },
  };
  return {
    mapping,
    guesses: readings.map(({ guess }) => guess),
    evidence: { ...facts.evidence, decimal_sign: decimals.evidence },
  };
}

function guessColumns(
  profiles: readonly Profile[],
  { fields, settled }: { readonly fields: readonly Field[]; readonly settled: Settled },
): { readonly guesses: readonly Guess[]; readonly matching: Matching } {
  const isSettled = settled.has("pulleys");
  const ticked = isSettled ? [] : tickedColumns(profiles);
  const fromTicks = guessesFromTicks(ticked, fields);
  const matching = matchColumns(
    profiles.filter((profile) => !ticked.includes(profile)),
    { fields: fields.filter((field) => !fromTicks.some((guess) => guess.field === field)), settled },
  );
  const own = [...fromTicks, ...matching.guesses];
  const split = guessesFromSplits(own, { fields, profiles });
  const replaced = own.filter(({ field }) => !split.some((guess) => guess.field === field));
  const place = ({ field }: Guess) => fields.indexOf(field);
  return { guesses: [...replaced, ...split].sort((one, other) => place(one) - place(other)), matching };
}

function questionsAboutColumns(
  guesses: readonly Guess[],
  {
    fields,
    profiles,
    matching,
    settled,
  }: {
    readonly fields: readonly Field[];
    readonly profiles: readonly Profile[];
    readonly matching: Matching;
    readonly settled: Settled;
  },
): readonly Undecided[] {
  const taken = new Set(
    guesses.filter(({ confidence }) => confidence !== "unsure").map(({ field }) => field.name),
  );
  const unsure = guesses.filter(({ confidence }) => confidence === "unsure");
  const meanings = unsure.map((guess) => questionAboutMeaning(guess, { matching, profiles, taken }));
  const asked = new Set(meanings.flatMap(({ choices }) => Object.keys(choices)));
  const used = new Set(guesses.flatMap(({ sources }) => sources));
  const left = profiles.filter((profile) => !used.has(profile.name));
  const missing = fields.filter(
    ({ name, required }) => required && !taken.has(name) && !asked.has(name) && settled.get(name) !== null,
  );
  return [...meanings, ...missing.map((field) => questionAboutColumn(field, { left }))];
}

const isNumeric = ({ field }: Guess): boolean => ["number", "integer", "bounded"].includes(field.kind);

const numericProfiles = (readings: readonly Readings[], profiles: readonly Profile[]): readonly Profile[] =>
  readings
    .filter(({ guess }) => isNumeric(guess))
    .flatMap(({ guess }) => profiles.filter((profile) => profile.name === guess.sources[0]));

function mediansOf(
  readings: readonly Readings[],
  profiles: readonly Profile[],
): { readonly medians?: Record<string, number> } {
  const medians = readings.flatMap(({ guess }): [string, number][] => {
    const profile = profiles.find(({ name }) => name === guess.sources[0]);
    const median = isNumeric(guess) && profile !== undefined ? medianOf(profile.filled) : null;
    return median === null ? [] : [[guess.field.name, median]];
  });
  return medians.length === 0 ? {} : { medians: Object.fromEntries(medians) };
}

function unusedColumns(
  profiles: readonly Profile[],
  {
    columns,
    questions,
  }: {
    readonly columns: Readonly<Record<string, ColumnRule>>;
    readonly questions: readonly Undecided[];
  },
): string[] {
  const used = new Set(Object.values(columns).flatMap(sourcesOf));
  const asked = new Set(
    questions.flatMap(({ decides }) => decides.filter(([key]) => key === "meaning").map(([, name]) => name!)),
  );
  return profiles.map(({ name }) => name).filter((name) => !used.has(name) && !asked.has(name));
}
