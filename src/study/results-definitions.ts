import { z } from "zod";
import { effect } from "./results-effects.js";
import { count } from "./results-parts.js";
import { withinCell } from "./results-within.js";

const definition = z.strictObject({
  label: z.string().describe("Its number and its sites, as its curve is called"),
  definition: z
    .string()
    .nullable()
    .describe(
      "As the first of its sites words it; null where the sites state none, and for injuries without a site",
    ),
  sites: z.array(z.string()).describe("Sites that mean the same, letter case, spaces and punctuation apart"),
  n: count.describe("Analysed injuries"),
  cells: z.array(withinCell).describe("One a compared group, in the order of the study file"),
  effects: z.array(effect).describe("The groups compared among these injuries alone"),
});
export type DefinitionRow = z.infer<typeof definition>;

/** What the sites mean by the milestone, where they do not mean the same. */
export const definitions = z.strictObject({
  pooled: z
    .boolean()
    .describe("Whether the study file says that they may be counted together (definitions: may_differ)"),
  rows: z.array(definition).describe("One a definition, that of most injuries first, none stated last"),
});
export type Definitions = z.infer<typeof definitions>;
