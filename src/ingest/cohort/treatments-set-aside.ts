import { cellReaderOf } from "../../schema/cells/read-cell.js";
import type { DateOrder } from "../../schema/cells/read-date.js";
import { tidy } from "../../schema/cells/reading.js";
import type { CellRow, TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { blankRow, type Field } from "../../schema/field.js";
import { datedColumns } from "../../schema/rules/dated.js";
import { tables } from "../../schema/tables.js";
import { type TreatmentRow, treatmentRow } from "../../schema/treatments.js";
import type { InjuriesByName } from "../rules/set-aside.js";
import type { CheckedRows } from "../table/check-rows.js";
import type { ReadFile } from "../text/rows-of-file.js";

type Treatment = TypedRow<TreatmentRow>;

/** Rows that are set aside and leave no treatment behind: another row says the same, or the site says it is none. */
const leavesNothing: ReadonlySet<DataQuery["code"]> = new Set([
  "row-repeated",
  "left-out-by-answer",
] as const);

const blankTreatment = blankRow(treatmentRow);
const dated: ReadonlySet<string> = new Set(datedColumns(treatmentRow).map(({ column }) => column));
const fieldNamed = (name: keyof TreatmentRow): Field =>
  (tables.treatments.fields as readonly Field[]).find((field) => field.name === name)!;

/**
 * What the rows of treatments that are set aside still say: that an injury was treated. Without this, a treatment that
 * came later would count as the first one.
 *
 * A word that cannot be read is `not_stated`; a start that is doubted, or that may stand in the wrong column, is blank.
 *
 * @param options read: the file, with the rows that do not fit its header; injuries: those that are used
 */
export function treatmentsSetAside(
  { ledger, notUsed, rows }: CheckedRows<TreatmentRow>,
  {
    read,
    dateOrder,
    injuries,
  }: {
    readonly read: ReadFile["read"];
    readonly dateOrder: DateOrder;
    readonly injuries: InjuriesByName;
  },
): readonly Treatment[] {
  const written = new Map(notUsed.map((row) => [row.row, row]));
  const typed = new Map(rows.map((row) => [row.row, row]));
  const tooLong = new Map(read.setAside.map(({ row, cells }) => [row, cells]));
  return [...ledger.setAside].flatMap(([row, query]): Treatment[] => {
    if (leavesNothing.has(query.code)) return [];
    const known = typed.get(row);
    const cells = written.get(row);
    const values =
      known !== undefined
        ? known.values
        : cells !== undefined
          ? valuesOf(cells, dateOrder)
          : { ...unknownTreatment, injury_id: tidy(tooLong.get(row)?.injury_id ?? "") };
    if (!injuries.has(values.injury_id)) return [];
    return [{ file: ledger.file, row, values: withoutDoubted(values, query) }];
  });
}

const unknownTreatment = { ...blankTreatment, treatment: "not_stated" } as const;

function valuesOf({ cells }: CellRow, dateOrder: DateOrder): TreatmentRow {
  const valueIn = (name: keyof TreatmentRow) => {
    const cell = tidy(cells[name] ?? "");
    const reading = cell === "" ? null : cellReaderOf(fieldNamed(name), dateOrder)(cell);
    return reading !== null && "value" in reading ? reading.value : null;
  };
  return {
    ...blankTreatment,
    injury_id: tidy(cells.injury_id ?? ""),
    treatment: (valueIn("treatment") as TreatmentRow["treatment"] | null) ?? "not_stated",
    start_date: valueIn("start_date") as string | null,
    end_date: valueIn("end_date") as string | null,
    order: valueIn("order") as number | null,
  };
}

/** Of two dates that contradict each other, or the injury, it is not known which is wrong. */
const withoutDoubted = (values: TreatmentRow, { column }: DataQuery): TreatmentRow =>
  column !== null && dated.has(column) ? { ...values, start_date: null, end_date: null } : values;
