/**
 * Weeks as days: times are whole days everywhere, so part of a week becomes the nearest whole day, half a day counted up.
 *
 * @param weeks as they are written in a study file, 0 or more
 * @example
 * wholeDays(26) // => 182
 * @example
 * wholeDays(26.1) // => 183
 */
export const wholeDays = (weeks: number): number => Math.round(weeks * 7);
