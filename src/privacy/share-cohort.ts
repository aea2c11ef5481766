import type { CohortTables } from "../schema/cohort-tables.js";
import { type LinkedTableName, linkedTableNames } from "../schema/table-names.js";
import { tableText } from "../schema/table-text.js";
import { classSizes, equivalenceClasses } from "./classes.js";
import { deIdentified, type SharedRow, type SharedTable } from "./de-identify.js";
import { type DisclosedTables, disclosedTables } from "./disclosed-tables.js";
import type { Disclosure } from "./disclosure.js";
import { classesOfOneOutcome, findingsInTexts, rareValues, returnedBy } from "./identifying-values.js";
import { keyedNames } from "./keyed-names.js";
import { combinationsOf } from "./ladder.js";
import { type WithoutLinks, withoutLinks } from "./linked-columns.js";
import type { Values } from "./persons.js";
import { injuryDaysDisclosed } from "./possible-days.js";
import { countableFields, injuryYear, quasiFields } from "./quasi-fields.js";
import { type Lessened, lessened } from "./rare-combinations.js";
import { sayColumn } from "./say-column.js";
import type { SecretKey } from "./secret-key.js";
import type { ShareSettings } from "./settings.js";

/** A table of the copy: columns in the order of the schema, rows as they will stand in the file. */
export interface CopiedTable {
  readonly table: LinkedTableName;
  readonly columns: readonly string[];
  readonly rows: readonly Values[];
  /** The same as CSV. */
  readonly text: string;
}

/** A shareable copy of a cohort, and what it discloses. */
export interface SharedCohort {
  readonly tables: readonly CopiedTable[];
  readonly disclosure: Disclosure;
  /** The name in the copy of a site of the study. */
  readonly siteName: (site: string) => string;
}

/**
 * A copy of the rows that are used, in which nobody is named: cells under the rules of their columns, rare combinations
 * listed or lessened, rows in an order that tells nothing. Each record ends on a day of its own before the close
 * (`recordEndsOf`); up to that day differences of days between the dates of a person stay to the day, but for months and
 * for the contacts of people whom the close is near to (`toldTables`).
 *
 * k-anonymity counts only what is asked of it; the copy is not anonymous by that, and whether it may leave is for people.
 *
 * @param tables typed rows that are used
 * @param options the key, and settings (`defaultSettings`)
 * @throws RangeError for a field that cannot be counted; Error for a key that is none
 * @source Sweeney 2002, Int J Uncertain Fuzziness Knowl-Based Syst 10:557; day offsets: Hripcsak et al. 2016, J Am Med
 *   Inform Assoc 23:1040 (from memory)
 */
export function shareCohort(
  tables: CohortTables,
  { key, settings }: { readonly key: SecretKey; readonly settings: ShareSettings },
): SharedCohort {
  const fields = quasiFields(settings);
  const names = keyedNames(key);
  const told = disclosedTables(tables, { settings, names });
  const means = { settings, names, calendars: told.calendars };
  const tablesInCopy = linkedTableNames.map((table) => deIdentified(table, { tables: told.tables, means }));
  const less = lessened(tablesInCopy[0]!.rows, { fields, settings });
  const { rows, readBack, asKnown } = copyRows(tablesInCopy, { less, fields, settings });
  const inOrder = settings.order === "by-name" ? byName : (all: readonly SharedRow[]) => all;
  const ordered = tablesInCopy
    .filter(({ table }) => rows.get(table)!.length > 0)
    .map((each) => copied(each, inOrder(rows.get(each.table)!)));
  const disclosure = disclosureOf({
    tables,
    told,
    tablesInCopy,
    ordered,
    less,
    readBack,
    asKnown: inOrder(asKnown),
    fields,
    settings,
  });
  return { tables: ordered, disclosure, siteName: (site) => names.nameOf("site", [site]) };
}

/** The rows of the copy by table: without the injuries left out whole, without what tells what was left out. */
function copyRows(
  tablesInCopy: readonly SharedTable[],
  {
    less,
    fields,
    settings,
  }: { readonly less: Lessened; readonly fields: readonly string[]; readonly settings: ShareSettings },
): WithoutLinks {
  const isIn = (_: unknown, place: number) => !less.leftOutWhole.has(place);
  const before = tablesInCopy[0]!.rows.filter(isIn);
  const injuries = less.rows.filter(isIn);
  const ids = new Set(injuries.map(({ values }) => values.injury_id));
  const rows = new Map(
    tablesInCopy.map(({ table, rows: all }): [LinkedTableName, readonly SharedRow[]] => [
      table,
      table === "sites" ? all : all.filter(({ values }) => ids.has(values.injury_id)),
    ]),
  );
  rows.set("injuries", injuries);
  const without = withoutLinks(before, { rows, fields, needed: settings.neededByStudy });
  const sites = new Set(injuries.map(({ values }) => values.site_id));
  const ofSites = rows.get("sites")!.filter(({ values }) => sites.has(values.site_id));
  return { ...without, rows: new Map(without.rows).set("sites", ofSites) };
}

function copied({ table, columns }: SharedTable, rows: readonly SharedRow[]): CopiedTable {
  const names = columns.filter(({ rule }) => rule.act !== "leave-out").map(({ field }) => field.name);
  // who stands behind a row goes no further than this
  const values = rows.map((row) => row.values);
  return { table, columns: names, rows: values, text: tableText(table, values, names) };
}

/** Rows in the order of their keyed names, then as they stood: the order of a file often is the order in time. */
function byName(rows: readonly SharedRow[]): readonly SharedRow[] {
  const name = ({ values }: SharedRow) => String(values.injury_id ?? values.site_id ?? "");
  return [...rows].sort((one, other) => (name(one) < name(other) ? -1 : name(one) > name(other) ? 1 : 0));
}

function disclosureOf({
  tables,
  told,
  tablesInCopy,
  ordered,
  less,
  readBack,
  asKnown,
  fields,
  settings,
}: {
  readonly tables: CohortTables;
  readonly told: DisclosedTables;
  readonly tablesInCopy: readonly SharedTable[];
  readonly ordered: readonly CopiedTable[];
  readonly less: Lessened;
  readonly readBack: Disclosure["read_back"];
  readonly asKnown: readonly SharedRow[];
  readonly fields: readonly string[];
  readonly settings: ShareSettings;
}): Disclosure {
  const { closedOn: _, ...toldSettings } = settings;
  const classes = equivalenceClasses(combinationsOf(asKnown, fields));
  const injuriesOfPerson = new Map<string, number>();
  for (const { person } of asKnown) {
    injuriesOfPerson.set(person ?? "", (injuriesOfPerson.get(person ?? "") ?? 0) + 1);
  }
  const present = tablesInCopy.filter(({ table }) => tables[table].length > 0);
  return {
    format: "pulley-outcomes disclosure 2",
    settings: toldSettings,
    rows: present.map(({ table }) => ({
      table,
      used: tables[table].length,
      in_copy: ordered.find((each) => each.table === table)?.rows.length ?? 0,
    })),
    people: injuriesOfPerson.size,
    people_with_several_injuries: [...injuriesOfPerson.values()].filter((n) => n > 1).length,
    injury_days: injuryDaysDisclosed({ before: tables, told: told.tables, ends: told.ends }, settings),
    columns: present.flatMap(({ table, columns }) =>
      columns.map((column) => ({
        table,
        column: column.field.name,
        ...sayColumn(column, settings),
        cells_before: filledIn(
          tables[table].map(({ values }) => values),
          column.field.name,
        ),
        cells_in_copy: filledIn(ordered.find((each) => each.table === table)?.rows ?? [], column.field.name),
      })),
    ),
    combinations: {
      k: settings.k,
      fields,
      before: less.before,
      in_copy: classSizes(classes, settings.k),
      made_coarser: less.madeCoarser,
      cells_left_out: less.cellsLeftOut,
      injuries_left_out: less.leftOutWhole.size,
      rare_rows: classes
        .filter(({ people }) => people < settings.k)
        .flatMap(({ rows, people }) => rows.map((place) => ({ row: place + 2, people })))
        .sort((one, other) => one.row - other.row),
    },
    read_back: readBack,
    one_outcome: classesOfOneOutcome(asKnown, {
      fields,
      returned: returnedBy(told.tables, settings.milestone),
      k: settings.k,
    }),
    rare_values: rareValues(asKnown, {
      columns: countableFields(settings).filter((name) => name !== injuryYear && !fields.includes(name)),
      k: settings.k,
    }),
    in_texts: findingsInTexts(tables),
  };
}

/** Cells of a column that hold something. */
const filledIn = (rows: readonly Values[], column: string): number =>
  rows.filter((values) => (values[column] ?? null) !== null).length;
