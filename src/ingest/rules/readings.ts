import type { TypedRow } from "../../schema/cells.js";
import type { ImagingRow } from "../../schema/imaging.js";

export type Reading = TypedRow<ImagingRow>;

/** Whether the distance is a value, not a limit such as '< 1'; blank is read as exact. */
export const isExact = ({ values: { bound } }: Reading): boolean => bound === null || bound === "exact";

/** Blank is read as the injured side. */
export const isOfInjured = ({ values }: Reading): boolean => values.side !== "other";

export const distanceOf = ({ values }: Reading): number => values.distance_mm;

/** The column of a file in which a distance stands. */
export const distanceColumn = ({ file, columnNames }: Reading): string =>
  `${file}\n${columnNames?.distance_mm ?? ""}`;
