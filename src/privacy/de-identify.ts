import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber } from "../schema/dates.js";
import { plainDefinition } from "../schema/definitions.js";
import type { InjuryRow } from "../schema/injuries.js";
import { levelRank } from "../schema/levels.js";
import type { PersonIds } from "../schema/person-key.js";
import type { LinkedTableName } from "../schema/table-names.js";
import { banded } from "./bands.js";
import type { Calendars } from "./calendars.js";
import { type RuledColumn, ruledColumns } from "./column-rules.js";
import type { KeyedNames } from "./keyed-names.js";
import { personNamer, type Values } from "./persons.js";
import type { ShareSettings } from "./settings.js";

/** What a cell's new value may depend on besides the cell. */
interface Behind {
  /** The injury that the row names; null for a row of the sites. */
  readonly injury: InjuryRow | null;
  readonly person: string | null;
}

/** A row of the copy, and who stands behind it. */
export interface SharedRow extends Behind {
  readonly values: Values;
}

/** One table of the copy before rare combinations are looked at. */
export interface SharedTable {
  readonly table: LinkedTableName;
  /** Columns with their rules; those left out have no cells. */
  readonly columns: readonly RuledColumn[];
  readonly rows: readonly SharedRow[];
}

export interface Means {
  readonly settings: ShareSettings;
  readonly names: KeyedNames;
  readonly calendars: Calendars;
}

/** Each cell of a table under the rule of its column. */
export function deIdentified(
  table: LinkedTableName,
  { tables, means }: { readonly tables: CohortTables; readonly means: Means },
): SharedTable {
  const columns = ruledColumns(table, means.settings);
  const injuries = new Map(tables.injuries.map(({ values }) => [values.injury_id, values]));
  const personOf = personNamer(tables);
  const rows = tables[table].map((row) => {
    const original: Values = row.values;
    const injury = injuries.get(String(original.injury_id)) ?? null;
    const behind = { injury, person: injury === null ? null : personOf(injury) };
    const values: Record<string, unknown> = {};
    for (const column of columns) {
      const { name } = column.field;
      const after = valueInCopy(original[name] ?? null, {
        column,
        behind,
        means,
        personIds: tables.personIds,
      });
      if (column.rule.act !== "leave-out") values[name] = after;
    }
    return { ...behind, values };
  });
  return { table, columns, rows };
}

function valueInCopy(
  value: unknown,
  {
    column,
    behind,
    means,
    personIds,
  }: {
    readonly column: RuledColumn;
    readonly behind: Behind;
    readonly means: Means;
    readonly personIds: PersonIds;
  },
): unknown {
  const { rule, field } = column;
  if (value === null) return null;
  switch (rule.act) {
    case "keep":
      return value;
    case "leave-out":
      return null;
    case "rename": {
      const parts = idParts(String(value), { kind: rule.kind, behind, personIds });
      return parts.at(-1) === "" ? null : means.names.nameOf(rule.kind, parts);
    }
    case "move":
      return dateOfDay(dayNumber(String(value)) + (means.calendars.get(behind.person ?? "") ?? 0));
    case "band":
      return banded(Number(value), rule);
    case "only-on-scale": {
      const scale = behind.injury?.level_scale ?? null;
      return scale !== null && levelRank(String(value), scale) !== null
        ? levelAsWritten(String(value))
        : null;
    }
    default:
      throw new Error(`column ${field.name} has a rule that is not known`);
  }
}

/**
 * Ids of events and raters are only unique within their site, and those of persons unless they are shared; definitions that
 * mean the same have one name.
 */
function idParts(
  id: string,
  { kind, behind, personIds }: { kind: string; behind: Behind; personIds: PersonIds },
): readonly string[] {
  if (kind === "definition") return [plainDefinition(id)];
  const withinSite = (kind === "person" && personIds === "per_site") || kind === "event" || kind === "rater";
  return withinSite ? [behind.injury?.site_id ?? "", id] : [id];
}

/** A level without the spaces and the letter case by which somebody might be known. */
const levelAsWritten = (level: string): string => level.replaceAll(/\s+/g, "");
