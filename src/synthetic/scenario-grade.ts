import { z } from "zod";

/** The grades a scenario draws; common practice, no source. */
export const drawnGrades = ["1", "2", "3", "4a", "4b"] as const;
export type DrawnGrade = (typeof drawnGrades)[number];

/** One value for each grade. */
export const byGrade = <T extends z.ZodType>(item: T, told: string) =>
  z.strictObject({ "1": item, "2": item, "3": item, "4a": item, "4b": item }).describe(told);

/** Weights that are divided by their sum: 3, 2, 1 means a half, a third, a sixth. */
export const weights = <const K extends readonly [string, ...string[]]>(keys: K, told: string) =>
  z
    .strictObject(
      Object.fromEntries(keys.map((key) => [key, z.number().min(0)])) as Record<K[number], z.ZodNumber>,
    )
    .refine(
      (object) => Object.values(object).some((weight) => (weight as number) > 0),
      "at least one weight above 0",
    )
    .describe(`${told}; weights, divided by their sum`);

/** A log-normal number of days, rounded, and cut off at the longest. */
export const delay = (told: string) =>
  z
    .strictObject({
      median_days: z.number().positive().max(365).describe("Median, days"),
      log_sd: z.number().min(0).max(2).describe("Standard deviation of the logarithm"),
      longest_days: z
        .number()
        .int()
        .positive()
        .max(365)
        .describe("Longer delays are shortened to this, days"),
    })
    .describe(told);
export type Delay = z.infer<ReturnType<typeof delay>>;

/** A normal distribution. */
export const meanAndSd = (told: string) =>
  z
    .strictObject({
      mean: z.number().describe("Mean"),
      sd: z.number().min(0).describe("Standard deviation"),
    })
    .describe(told);

export const share = (told: string) => z.number().min(0).max(1).describe(told);
