import type { Field } from "../../../schema/field.js";
import type { TableName } from "../../../schema/table-names.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { groupsRead, unfoldGroups } from "../injuries-in-row.js";
import type { ColumnRule, Mapping, Undecided } from "../mapping.js";
import { sourcesOf } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { tableOf } from "../table-of.js";
import { guessFromBirths } from "./births.js";
import { type CodeBook, forCodes, withLabels } from "./code-book.js";
import { type ColumnsGuessed, columnsAsked, questionsAboutColumns } from "./column-questions.js";
import { contentReader } from "./content.js";
import { fileOrder, orderEvidence } from "./date-orders.js";
import { questionsAboutScans } from "./days-of-scans.js";
import { datedProfiles, dateFacts } from "./file-facts.js";
import { type InjuriesInRow, injuriesInRow } from "./groups-in-row.js";
import { type Guess, lessSure } from "./guess.js";
import { type Earlier, earlierFor, keptGuesses, withEarlier } from "./keep-earlier.js";
import { type Matching, matchColumns, type Settled } from "./match-columns.js";
import { questionsAboutMixed, withMixed } from "./mixed-columns.js";
import { notReadable } from "./not-readable.js";
import { decimalSignOf, medianOf } from "./numbers.js";
import { type Profile, profilesOf, whatItHolds } from "./profile.js";
import { type Readings, withReadings } from "./readings.js";
import { questionsAboutRowsApart } from "./rows-apart.js";
import { formOfRows, questionAboutRows, withDayOfVisit } from "./rows-of-visits.js";
import { afterLastContact, countReversals, datedOf, sequenceEvidence } from "./sequence.js";
import { guessesFromSplits } from "./splits.js";
import { guessesFromTicks, tickedColumns } from "./ticks.js";

export interface ProposeOptions {
  /** Short name of the mapping. */
  readonly name: string;
  readonly table: TableName;
  /** What a row of a single sheet is, where a person has said it; else it is looked for, and asked. */
  readonly oneRow?: "injury" | "visit";
  /** Whether every group of numbered columns is an injury, where a person has said it; else it is asked. */
  readonly groups?: "each" | "first";
  /** What the codes of the file stand for, where a code book says it. */
  readonly codes?: CodeBook;
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
  /** Columns of the file that are not used, each with what it holds, in words. */
  readonly leftOut: readonly {
    readonly name: string;
    readonly holds: string;
    readonly filled: number;
  }[];
  /** How many further columns of a very wide file were not looked at. */
  readonly notLookedAt: number;
}

/**
 * Proposes how a file translates into one of our tables.
 *
 * Each column is compared with each of our fields by its name (general vocabulary of five languages) and its cells
 * (share that can be read as the field); the assignment is one-to-one and the best in total. Where two readings fit
 * nearly alike, or nothing tells, there is a question and no guess.
 *
 * @param sheet the file taken apart
 */
export function proposeMapping(sheet: ShapedSheet, options: ProposeOptions): Proposal {
  const { codes } = options;
  if (codes === undefined) return withSmallRest(proposed(sheet, options), sheet);
  const proposal = proposed(withLabels(sheet, codes), options);
  return withSmallRest({ ...proposal, mapping: forCodes(proposal.mapping, codes) }, sheet);
}

/** What is asked once for many rows, after everything about the columns. */
function withSmallRest(proposal: Proposal, sheet: ShapedSheet): Proposal {
  const { mapping } = proposal;
  const more = [...questionsAboutScans(mapping), ...questionsAboutRowsApart(sheet, mapping)];
  return { ...proposal, mapping: { ...mapping, undecided: [...mapping.undecided, ...more] } };
}

function proposed(sheet: ShapedSheet, options: ProposeOptions): Proposal {
  const { earlier, settled = new Map<string, string | null>(), notUsed = [] } = options;
  if (earlier === undefined) return proposeAnew(sheet, { ...options, settled, notUsed, kept: {} });
  const kept = earlierFor(sheet, earlier);
  const proposal = proposeAnew(sheet, {
    ...options,
    settled: new Map([...kept.settled, ...settled]),
    notUsed: [...kept.notUsed, ...notUsed],
    kept: kept.rules,
  });
  return { ...proposal, mapping: withEarlier(proposal.mapping, { earlier, kept }) };
}

function proposeAnew(
  asWritten: ShapedSheet,
  {
    name,
    table,
    settled: settledBefore,
    notUsed: leftOutByPerson,
    kept: keptRules,
    ...told
  }: ProposeOptions &
    Pick<Required<ProposeOptions>, "settled" | "notUsed"> & { readonly kept: Earlier["rules"] },
): Proposal {
  const inRow =
    table === "single_sheet" ? injuriesInRow(asWritten, told.groups ?? groupsSaidIn(told.earlier)) : noGroups;
  const sheet = unfoldGroups(asWritten, groupsRead({ injuries_in_row: inRow.told }));
  const all = profilesOf(sheet);
  const notUsed = [...leftOutByPerson, ...furtherGroups(inRow)];
  const spokenOf = new Set<string | null>([...notUsed, ...settledBefore.values()]);
  const unreadable = notReadable(all.filter(({ name: column }) => !spokenOf.has(column)));
  const apart = new Set([...notUsed, ...unreadable.flatMap(({ columns: names }) => names)]);
  const profiles = all.filter((profile) => !apart.has(profile.name));
  const form = formOfRows(profiles, { table, ...told });
  const { fields } = tableOf(form);
  const settled = withDayOfVisit(settledBefore, form);
  const { guesses: matched, matching } = guessColumns(profiles, { fields, settled });
  const evidence = datedProfiles(profiles).map(orderEvidence);
  const dated = datedOf(
    matched.filter(({ confidence }) => confidence !== "unsure"),
    profiles,
  );
  const order = fileOrder(evidence, (each) => countReversals(dated, each));
  const facts = dateFacts(order, evidence);
  const context = { fields, profiles, matching, settled, order, dated };
  const inSequence = matched.map((guess) => heldAgainstSequence(guess, context));
  const guesses = withAge(heldAgainstNeeded(inSequence, context), context);
  const readings = [...guesses, ...keptGuesses(keptRules, fields)]
    .map((guess): Readings => {
      const source = comparedText(guess.sources[0] ?? "");
      const profile = all.find((each) => comparedText(each.name) === source);
      const isOneColumn = typeof guess.rule.from === "string" && profile !== undefined;
      return isOneColumn ? withReadings(guess, { profile, order }) : { guess, questions: [] };
    })
    .sort((one, other) => fields.indexOf(one.guess.field) - fields.indexOf(other.guess.field));
  const kept = readings.filter(({ guess }) => guess.confidence !== "unsure");
  const decimals = decimalSignOf(numericProfiles(kept, profiles));
  const questions = [
    ...inRow.questions,
    ...unreadable.map(({ question }) => question),
    ...(form.asked === null ? [] : [questionAboutRows(form.asked)]),
    ...questionsAboutColumns(guesses, context),
    ...facts.questions,
    ...questionsAboutMixed(
      kept.map(({ guess }) => guess),
      all,
    ),
    ...kept.flatMap((each) => each.questions),
  ];
  const columns = Object.fromEntries(kept.map(({ guess }) => [guess.field.name, guess.rule]));
  const unused = unusedColumns(all, { columns, questions });
  const mapping: Mapping = {
    mapping: name,
    table,
    ...(form.one_row === undefined ? {} : { one_row: form.one_row }),
    ...(inRow.told === undefined ? {} : { injuries_in_row: inRow.told }),
    ...(sheet.sheet === null ? {} : { sheet: sheet.sheet }),
    leave_out_rows: [],
    ...facts.settings,
    decimal_sign: decimals.sign,
    columns,
    not_used: unused.map((profile) => profile.name),
    undecided: questions,
    seen: {
      columns: asWritten.columns.map((column) => column.name),
      rows: sheet.records.length,
      ...mediansOf(kept, profiles),
    },
  };
  return {
    mapping,
    guesses: readings.map(({ guess }) => guess),
    evidence: { ...facts.evidence, decimal_sign: decimals.evidence },
    leftOut: unused.map((profile) => ({
      name: profile.name,
      holds: whatItHolds(profile),
      filled: profile.filled.length,
    })),
    notLookedAt: sheet.columns.length - all.length,
  };
}

const noGroups: InjuriesInRow = { told: undefined, questions: [] };

/** The columns of the other groups, where only the first is read. */
const furtherGroups = ({ told }: InjuriesInRow): readonly string[] =>
  told?.read === "first" ? told.groups.slice(1).flat() : [];

const groupsSaidIn = (earlier: Mapping | undefined): "each" | "first" | undefined =>
  earlier?.undecided.some(({ decides }) => decides[0]?.[0] === "injuries_in_row") === true
    ? undefined
    : earlier?.injuries_in_row?.read;

/** A dated guess with what the order of the dates says about it. */
function heldAgainstSequence(guess: Guess, { profiles, order, dated }: ColumnsGuessed): Guess {
  const own = datedOf([guess], profiles)[0];
  if (own === undefined || order.order === null) return guess;
  const late = afterLastContact(own, { others: dated, order: order.order });
  if (late !== null) return lessSure(guess, late);
  const found = sequenceEvidence(own, { others: dated, order: order.order });
  if (found === null) return guess;
  return found.fits ? { ...guess, evidence: [...guess.evidence, found.words] } : lessSure(guess, found.words);
}

/**
 * Where what every row needs has no column, a column that could hold it is asked about, unless its name says just what
 * it was taken for.
 */
function heldAgainstNeeded(
  guesses: readonly Guess[],
  { fields, profiles }: ColumnsGuessed,
): readonly Guess[] {
  const given = guesses.filter(({ confidence }) => confidence !== "unsure").map(({ field }) => field);
  const needed = fields.filter(
    (field) => field.required && field.when !== undefined && !given.includes(field),
  );
  if (needed.length === 0) return guesses;
  return guesses.map((guess) => {
    const profile = profiles.find(({ name }) => name === guess.sources[0]);
    if (guess.confidence !== "likely" || guess.field.required || profile === undefined) return guess;
    const could = needed.find((field) => (contentReader(field)(profile).share ?? 0) >= leastReadable);
    return could === undefined
      ? guess
      : lessSure(guess, `it could also be ${could.name}, which every row needs`);
  });
}

const leastReadable = 0.8;

/** The age from births in place of a guess that only the name speaks for. */
function withAge(guesses: readonly Guess[], context: ColumnsGuessed): readonly Guess[] {
  const age = guessFromBirths(guesses, context);
  return age === null ? guesses : [...guesses.filter(({ field }) => field !== age.field), age];
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
  const split = withMixed(guessesFromSplits(own, { fields, profiles }), { own, fields, profiles });
  const replaced = own.filter(({ field }) => !split.some((guess) => guess.field === field));
  const place = ({ field }: Guess) => fields.indexOf(field);
  return { guesses: [...replaced, ...split].sort((one, other) => place(one) - place(other)), matching };
}

const isNumeric = ({ field }: Guess): boolean => ["number", "integer", "bounded"].includes(field.kind);

const numericProfiles = (readings: readonly Readings[], profiles: readonly Profile[]): readonly Profile[] =>
  readings
    .filter(({ guess }) => isNumeric(guess))
    .flatMap(({ guess }) => profiles.filter((profile) => profile.name === guess.rule.from));

function mediansOf(
  readings: readonly Readings[],
  profiles: readonly Profile[],
): { readonly medians?: Record<string, number> } {
  const medians = readings.flatMap(({ guess }): [string, number][] => {
    const profile = profiles.find(({ name }) => name === guess.rule.from);
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
): readonly Profile[] {
  const used = new Set(Object.values(columns).flatMap(sourcesOf));
  const asked = columnsAsked(questions);
  return profiles.filter(({ name }) => !used.has(name) && !asked.has(name));
}
