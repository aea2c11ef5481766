import { ArgumentError, checkNumber, type Kind } from "./arguments.js";
import { listed, suggestion } from "./suggestion.js";

/**
 * One option of a function: what it may be. A table of them describes all that a function takes; the type of the options follows from it
 * (`OptionsOf`), and `readOptions` holds what callers pass against it. Its comment in the table is what an editor shows.
 */
export interface Option<Value> {
  /** @throws ArgumentError naming the option */
  readonly check: (value: unknown, name: string) => asserts value is Value;
}

/** An option with a value that stands where it is left out. */
export interface Defaulted<Value> extends Option<Value> {
  readonly byDefault: Value;
}

/** An option that has no default and cannot be left out. */
export interface Needed<Value> extends Option<Value> {
  readonly needed: true;
}

export type OptionTable = Readonly<Record<string, Option<unknown>>>;

type ValueOf<Entry> = Entry extends Option<infer Value> ? Value : never;
type IsNeeded<Entry> = Entry extends { readonly needed: true } ? true : false;
type IsDefaulted<Entry> = Entry extends { readonly byDefault: unknown } ? true : false;

/** What a caller may pass: options that are needed, and others that may be left out. */
export type OptionsOf<Table> = {
  readonly [Name in keyof Table as IsNeeded<Table[Name]> extends true ? Name : never]: ValueOf<Table[Name]>;
} & {
  readonly [Name in keyof Table as IsNeeded<Table[Name]> extends true ? never : Name]?: ValueOf<Table[Name]>;
};

/** What a function works with: defaults in their place; what has none and was left out is not there. */
export type Read<Table> = {
  readonly [Name in keyof Table as IsNeeded<Table[Name]> extends true
    ? Name
    : IsDefaulted<Table[Name]> extends true
      ? Name
      : never]: ValueOf<Table[Name]>;
} & {
  readonly [Name in keyof Table as IsNeeded<Table[Name]> extends true
    ? never
    : IsDefaulted<Table[Name]> extends true
      ? never
      : Name]?: ValueOf<Table[Name]>;
};

/** A number of a kind. */
export function number(kind: Kind): Option<number>;
export function number(kind: Kind, byDefault: number): Defaulted<number>;
export function number(kind: Kind, byDefault?: number): Option<number> {
  const check: Option<number>["check"] = (value, name) => checkNumber({ name, value: value as number }, kind);
  return byDefault === undefined ? { check } : withDefault({ check }, byDefault);
}

/** One of the words of a list (or of its numbers). */
export function oneOf<const Word extends string | number>(words: readonly Word[]): Option<Word>;
export function oneOf<const Word extends string | number>(
  words: readonly Word[],
  byDefault: NoInfer<Word>,
): Defaulted<Word>;
export function oneOf<const Word extends string | number>(
  words: readonly Word[],
  byDefault?: Word,
): Option<Word> {
  const check: Option<Word>["check"] = (value, name) => checkWord({ name, value }, words);
  return byDefault === undefined ? { check } : withDefault({ check }, byDefault);
}

/** An array, of numbers or of others; what stands in it is checked where it is used. */
export function list<Value>(expected = "an array of numbers"): Option<Value> {
  return {
    check: (value, name) => {
      const isList =
        typeof value === "object" &&
        value !== null &&
        Number.isSafeInteger((value as { length?: unknown }).length);
      if (!isList) throw new ArgumentError({ argument: name, index: null, expected, found: shown(value) });
    },
  };
}

/** Whatever passes the check: for what is neither a number, a word nor an array. */
export const checkedBy = <Value>(check: (value: unknown, name: string) => void): Option<Value> => ({ check });

export const withDefault = <Value>({ check }: Option<Value>, byDefault: Value): Defaulted<Value> => ({
  check,
  byDefault,
});

export const needed = <Value>({ check }: Option<Value>): Needed<Value> => ({ check, needed: true });

/** Confidence level, as most functions take it. */
export const confidenceLevel = number("open share", 0.95);

/** @throws ArgumentError listing the words, and telling which one was perhaps meant */
export function checkWord(
  { name, value }: { readonly name: string; readonly value: unknown },
  words: readonly (string | number)[],
): void {
  if (words.includes(value as string)) return;
  throw new ArgumentError({
    argument: name,
    index: null,
    expected: `one of ${listed(words, "or")}`,
    found: `${shown(value)}${suggestion(value, words)}`,
  });
}

/** A value as an error shows it. */
export function shown(value: unknown): string {
  if (typeof value === "string") return `"${value}"`;
  if (Array.isArray(value) || ArrayBuffer.isView(value)) return "an array";
  if (typeof value === "object" && value !== null) return "an object";
  return typeof value === "function" ? "a function" : String(value);
}

const isNoObject = (value: unknown): boolean =>
  typeof value !== "object" || value === null || Array.isArray(value) || ArrayBuffer.isView(value);

interface KnownNames {
  /** What stands before a name in an error. */
  readonly within: string;
  /** What they are: "option" or "column". */
  readonly what: string;
  readonly names: readonly string[];
}

function checkNames(given: object, known: KnownNames): void {
  const unknown = Object.keys(given).find((name) => !known.names.includes(name));
  if (unknown === undefined) return;
  throw new ArgumentError({
    argument: `${known.within}${unknown}`,
    index: null,
    expected: `one of the ${known.what}s ${listed(known.names, "or")}`,
    found: `"${unknown}"`,
    sentence: `there is no ${known.what} "${known.within}${unknown}"${suggestion(unknown, known.names)}; the ${known.what}s are ${listed(known.names, "and")}`,
  });
}

/**
 * The options of a function with their defaults.
 *
 * @throws ArgumentError naming an option that is not known, is of the wrong kind, or is missing; or "options" where no object was passed
 */
export function readOptions<Table extends OptionTable>(table: Table, given: OptionsOf<Table>): Read<Table> {
  return readWithin(table, { within: "", given });
}

/** Options of an option: an error names them "weight.rho". */
export const readNested = <Table extends OptionTable>(
  table: Table,
  { name, value }: { readonly name: string; readonly value: OptionsOf<Table> },
): Read<Table> => readWithin(table, { within: `${name}.`, given: value });

function readWithin<Table extends OptionTable>(
  table: Table,
  { within, given }: { readonly within: string; readonly given: OptionsOf<Table> },
): Read<Table> {
  const names = Object.keys(table);
  if (isNoObject(given))
    throw new ArgumentError({
      argument: within === "" ? "options" : within.slice(0, -1),
      index: null,
      expected: `an object of options (${listed(names, "and")})`,
      found: shown(given),
    });
  checkNames(given, { within, what: "option", names });
  const read: Record<string, unknown> = {};
  for (const name of names) {
    const option: Option<unknown> & Partial<Defaulted<unknown> & Needed<unknown>> = table[name]!;
    const value = (given as Record<string, unknown>)[name];
    if (value !== undefined || option.needed === true) option.check(value, `${within}${name}`);
    const used = value === undefined ? option.byDefault : value;
    if (used !== undefined) read[name] = used;
  }
  return read as Read<Table>;
}

/** The names of an object's columns or counts: the compiler demands each of them, and no other. */
export type NamesOf<Columns> = Readonly<Record<keyof Columns, true>>;

/**
 * @param given the object under the name of the argument: `{ columns }`
 * @throws ArgumentError naming a column that is not known, or the argument where it is no object; values are checked where they are used
 */
export function checkColumnNames<Columns>(
  names: NamesOf<Columns>,
  given: Readonly<Record<string, Columns>>,
): void {
  const known = Object.keys(names);
  for (const [argument, columns] of Object.entries(given)) {
    if (isNoObject(columns))
      throw new ArgumentError({
        argument,
        index: null,
        expected: `an object with ${listed(known, "and")}`,
        found: shown(columns),
      });
    checkNames(columns as object, { within: "", what: "column", names: known });
  }
}

/**
 * @param given the result under the name of the argument: `{ curve }`
 * @throws ArgumentError naming the argument where it has not what a result needs; it may have more
 */
export function checkResult<Result extends object>(
  given: Readonly<Record<string, Result>>,
  { expected, has }: { readonly expected: string; readonly has: readonly (keyof Result)[] },
): void {
  for (const [argument, result] of Object.entries(given))
    if (isNoObject(result) || !has.every((name) => name in result))
      throw new ArgumentError({ argument, index: null, expected, found: shown(result) });
}

export const levelOption = {
  /** Confidence level. Default 0.95. */
  level: confidenceLevel,
};

/** Of functions that take nothing else. */
export interface LevelOption extends OptionsOf<typeof levelOption> {}
