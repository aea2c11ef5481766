import { z } from "zod";

/** Nobody writes longer lists; it bounds what a file of settings can ask for. */
export const longestList = 200;

export const knownOnce = <T extends z.ZodType>(item: T, minimum: number) =>
  z
    .array(item)
    .min(minimum)
    .max(longestList)
    .refine((items) => new Set(items).size === items.length, "each entry once");
