import type { z } from "zod";
import { type FieldDescription, type FieldsSaying, fieldsOf, type Said } from "./field.js";
import { injuryRow } from "./injuries.js";
import type { SheetPart } from "./said-of-field.js";

type Shape = (typeof injuryRow)["shape"];

/** What a field of the injuries is called in a part of the single sheet; `never` where it is not in that part. */
type NameIn<Name extends keyof Shape, Part extends SheetPart> =
  Shape[Name] extends Said<{
    readonly sheet: { readonly part: Part; readonly as: infer Other extends string };
  }>
    ? Other
    : Shape[Name] extends Said<{ readonly sheet: { readonly part: Part } }>
      ? Name
      : never;

type ColumnsOf<Part extends SheetPart> = {
  readonly [Name in keyof Shape as NameIn<Name, Part>]: Shape[Name];
};

/** The fields of the injuries that are columns of a part of the single sheet, by the name that they have there. */
export function columnsOf<const Part extends SheetPart>(part: Part): ColumnsOf<Part> {
  const columns = fieldsOf(injuryRow as unknown as z.ZodObject).flatMap(({ name, sheet }) =>
    isIn(sheet, part) ? [[sheet.as ?? name, injuryRow.shape[name as keyof Shape]] as const] : [],
  );
  return Object.fromEntries(columns) as unknown as ColumnsOf<Part>;
}

const isIn = (
  sheet: FieldDescription["sheet"],
  part: SheetPart,
): sheet is { readonly part: SheetPart; readonly as?: string } =>
  typeof sheet === "object" && "part" in sheet && sheet.part === part;

/** Fields of the injuries that are read from a column that the sheet describes itself. */
export type ReadFromSheet = FieldsSaying<typeof injuryRow, { readonly sheet: { readonly from: string } }>;

/** The columns that they are read from. */
export type OwnColumn = {
  [Name in keyof Shape]: Shape[Name] extends Said<{
    readonly sheet: { readonly from: infer Column extends string };
  }>
    ? Column
    : never;
}[keyof Shape];

/** The columns of the sheet that are fields of the injuries just as they are. */
export type SharedColumn = keyof ColumnsOf<SheetPart>;

/** A field of the injuries and the column of the sheet that it stands in. */
export interface Placed<Column extends string = string> {
  readonly field: keyof Shape;
  readonly column: Column;
}

interface AnyPlaced extends Placed {
  readonly isShared: boolean;
}

/** The fields of the injuries that the sheet has room for, in the order of the table. */
export const placedFields: readonly AnyPlaced[] = fieldsOf(injuryRow as unknown as z.ZodObject).flatMap(
  ({ name, sheet = "not" }): AnyPlaced[] => {
    if (sheet === "not") return [];
    const field = name as keyof Shape;
    return "from" in sheet
      ? [{ field, column: sheet.from, isShared: false }]
      : [{ field, column: sheet.as ?? name, isShared: true }];
  },
);

/** Those that are the same in both. */
export const sharedFields = placedFields.filter(
  ({ isShared }) => isShared,
) as unknown as readonly Placed<SharedColumn>[];
