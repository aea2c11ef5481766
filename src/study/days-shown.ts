/** No number at risk is told of a later day. */
export const lastDayShown = (horizonDay: number): number => 2 * horizonDay;

/** Days at which numbers at risk are told: whole weeks, about eight columns, up to twice the horizon. */
export function daysShown(last: number, horizonDay: number): number[] {
  const weeks = Math.max(1, Math.floor(Math.min(last, lastDayShown(horizonDay)) / 7));
  const step = [1, 2, 4, 8, 13, 26, 52].find((size) => weeks / size <= 8) ?? 104;
  return Array.from({ length: Math.floor(weeks / step) + 1 }, (_, i) => 7 * i * step);
}
