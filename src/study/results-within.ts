import { z } from "zod";
import { count, estimate, maybe } from "./results-parts.js";

export const withinCell = z.strictObject({
  label: z.string(),
  n: count,
  persons: count,
  events: count.describe("Returns during all of the follow-up"),
  returned: estimate.describe("Share back by the main landmark; too-few-rows below the smallest group"),
  half_back: estimate.describe("Day by which half are back"),
});
export type WithinCell = z.infer<typeof withinCell>;

const cellOverTime = withinCell.extend({
  landmarks: z
    .array(z.strictObject({ week: z.number(), day: z.number(), returned: estimate }))
    .describe("Share back by each landmark; too-few-rows below the smallest group"),
  falls_early: z
    .boolean()
    .describe("With delayed entry: the curve reached its end while hardly anybody was at risk"),
});

const row = z.strictObject({
  value: z.string(),
  cells: z.array(cellOverTime).describe("One a compared group, in the order of the study file"),
  differences: z
    .array(z.strictObject({ compared: z.string(), reference: z.string(), returned: estimate, p: maybe }))
    .describe("Share back by the main landmark, compared less reference, among the injuries of this value"),
});
export type WithinRow = z.infer<typeof row>;

/** The compared groups side by side among injuries that are alike in one field. */
export const within = z.strictObject({
  field: z.string(),
  day: z.number().describe("The main landmark"),
  rows: z.array(row).describe("One a value that occurs among the compared"),
  not_recorded: count.describe("Compared injuries in which the field is not recorded"),
});
export type Within = z.infer<typeof within>;
