import { CommandError, exitCodes } from "./exit-codes.js";

/**
 * The value of an option that takes whole numbers of a range; one that was not given stays so.
 *
 * @throws CommandError that names the range
 */
export function within<Value extends number | undefined>(
  option: string,
  value: Value,
  { from, to }: { readonly from: number; readonly to: number },
): Value {
  if (value === undefined || (Number.isInteger(value) && value >= from && value <= to)) return value;
  throw new CommandError(
    exitCodes.usage,
    `${option} ${value} cannot be used.\n  Write a whole number from ${from} to ${to}.`,
  );
}
