import type { Field } from "../../../schema/field.js";

/** Whether a dated field may be told as a span of days, and so as a time since the injury. */
export const takesTimes = ({ kind, precision, when }: Field): boolean =>
  (kind === "period" || precision !== undefined) && when !== "injury";
