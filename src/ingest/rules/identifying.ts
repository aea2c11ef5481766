import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { scanPseudonym } from "../../schema/identifying/scan-pseudonym.js";
import { type IdentifyingPlace, scanText } from "../../schema/identifying/scan-text.js";
import { linkedTableNames } from "../../schema/table-names.js";
import { tables as schemas } from "../../schema/tables.js";
import { enoughForAColumn, type LinkRule } from "./link-rule.js";

const textColumns = new Map(
  linkedTableNames.map((name) => [
    name,
    schemas[name].fields.filter(({ kind }) => kind === "text").map((field) => field.name),
  ]),
);

/** Free texts that may tell who somebody is: the kind of thing and its place are told, the text is not. */
export const textMayIdentify: LinkRule = function* ({ tables }) {
  const kindsIn = rememberingScan();
  for (const name of linkedTableNames) {
    const columns = textColumns.get(name)!;
    for (const row of tables[name] as readonly TypedRow<object>[]) {
      for (const column of columns) {
        const text = (row.values as Readonly<Record<string, unknown>>)[column];
        if (typeof text !== "string") continue;
        const kinds = kindsIn(text);
        if (kinds.size > 0) yield* queriesAboutText(row, { column, kinds });
      }
    }
  }
};

type Kinds = ReadonlyMap<string, IdentifyingPlace>;

/** How many texts are remembered, and how long they may be: grades and levels as written repeat, notes do not. */
const remembered = 5_000;
const longestRemembered = 40;

/** The first place of each kind in a text. */
function rememberingScan(): (text: string) => Kinds {
  const known = new Map<string, Kinds>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const kinds = new Map<string, IdentifyingPlace>();
    for (const place of scanText(text)) if (!kinds.has(place.kind)) kinds.set(place.kind, place);
    if (known.size < remembered && text.length <= longestRemembered) known.set(text, kinds);
    return kinds;
  };
}

function* queriesAboutText(
  row: TypedRow<object>,
  { column, kinds }: { readonly column: string; readonly kinds: Kinds },
): Iterable<DataQuery> {
  for (const [kind, { from }] of kinds) {
    yield askAbout(row, {
      code: "text-may-identify",
      severity: "look-at",
      column,
      found: null,
      facts: { kind, character: from },
    });
  }
}

/** Pseudonyms of persons that are no pseudonyms; each person once. */
export const pseudonymIdentifies: LinkRule = function* ({ tables }) {
  const firsts = new Map<string, (typeof tables.injuries)[number]>();
  for (const row of tables.injuries) {
    if (!firsts.has(row.values.person_id)) firsts.set(row.values.person_id, row);
  }
  const areNumbers = areHandedOut([...firsts.keys()].filter((id) => onlyFigures.test(id)));
  for (const [id, row] of firsts) {
    const looks = scanPseudonym(id);
    if (looks === null || (looks === "date of birth" && areNumbers && onlyFigures.test(id))) continue;
    yield askAbout(row, {
      code: "pseudonym-may-identify",
      severity: "look-at",
      column: "person_id",
      found: null,
      facts: { kind: looks },
    });
  }
};

const onlyFigures = /^\s*\d+\s*$/;
/** Every date of birth holds a day; of numbers drawn at random one in nine looks as if it did (counted). */
const shareOfBirths = 0.6;
/** Numbers that are handed out one after the other leave few gaps; births written as six figures lie hundreds apart (our choice). */
const widestGap = 20;

/**
 * Whether ids of figures alone are numbers that are handed out rather than dates of birth: too few of them hold a day, or
 * they follow each other closely.
 */
function areHandedOut(ids: readonly string[]): boolean {
  const births = ids.filter((id) => scanPseudonym(id) === "date of birth");
  if (births.length < shareOfBirths * ids.length) return true;
  if (ids.length < enoughForAColumn) return false;
  const numbers = ids.map(Number).sort((one, other) => one - other);
  return numbers.at(-1)! - numbers[0]! <= widestGap * numbers.length;
}
