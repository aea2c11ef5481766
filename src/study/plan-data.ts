import { z } from "zod";
import { personIdRules } from "../schema/person-key.js";
import { day, filePath } from "../schema/settings/texts.js";
import { siteRow } from "../schema/sites.js";
import { tableNames } from "../schema/table-names.js";
import { longestList } from "./plan-lists.js";

const file = (what: string) => filePath.describe(`${what}; a path relative to the study file`);

/** Where the tables of one site lie and how they are read. */
const tablesOfSite = {
  injuries: file("CSV or workbook of the injuries").optional(),
  treatments: file("CSV or workbook of the treatment episodes").optional(),
  imaging: file("CSV or workbook of the distance readings").optional(),
  visits: file("CSV or workbook of the visits").optional(),
  sites: file("CSV or workbook of the sites").optional(),
  single_sheet: file("CSV or workbook of the single-sheet form, instead of the linked tables").optional(),
  sheets: z
    .partialRecord(z.enum(tableNames), z.string().min(1).max(200))
    .optional()
    .describe(
      "Sheet for each table whose file is a workbook (.xlsx); the first that holds anything when left out",
    ),
  mappings: z
    .partialRecord(
      z.enum(tableNames),
      file("Mapping that translates the file into the columns of the toolkit"),
    )
    .optional()
    .describe("For each table whose file is in a site's own columns: its mapping, as the verb fit writes it"),
  answers: file(
    "CSV of the site's answers to earlier queries: the list that check --queries writes, filled in",
  ).optional(),
};
const dateOrder = z
  .enum(["year-first", "day-first", "month-first"])
  .describe("How dates are written that do not put the year first; year-first takes only YYYY-MM-DD");
const readingOfSite = {
  calendar: z
    .enum(["common", "per_person"])
    .optional()
    .describe("per_person in a de-identified copy: each person's dates are days of a calendar of their own"),
  person_ids: z
    .enum(personIdRules)
    .optional()
    .describe(
      "per_site (also where left out, because sites number their people by themselves): the same person id at two sites is two people. shared: it is one person, whose injuries are not independent of each other",
    ),
  closed_on: day.optional().describe("Day on which the data were closed; later dates are queried"),
};

const { site_id: _id, name: _name, country: _country, ...statable } = siteRow.shape;

const fromSite = z
  .strictObject({
    site: z
      .string()
      .regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$/, "a coded name: letters, digits, - and _, at most 32")
      .describe("Coded name of the site in this study; it takes the place of the site's own site_id"),
    folder: file("Folder of a copy that the verb share wrote; its study.yaml says what it holds").optional(),
    study: file(
      "Study file of the site itself: its data and synthetic are used, what it asks is not",
    ).optional(),
    ...tablesOfSite,
    date_order: dateOrder.optional(),
    ...readingOfSite,
    states: z
      .strictObject(statable)
      .partial()
      .optional()
      .describe(
        "What the site states of itself where its tables do not, or only by the keyed name of a shared copy: columns of the sites table",
      ),
  })
  .describe("The rows of one site: a folder, a study file, or tables");
export type FromSite = z.infer<typeof fromSite>;

export const data = z
  .strictObject({
    ...tablesOfSite,
    from_sites: z
      .array(fromSite)
      .min(1)
      .max(longestList)
      .refine((sites) => new Set(sites.map(({ site }) => site)).size === sites.length, "each site once")
      .optional()
      .describe(
        "Several sites, whose rows are joined; the site then is one of the strata of every adjusted comparison",
      ),
    date_order: dateOrder.default("year-first"),
    ...readingOfSite,
  })
  .describe("Where the data lie: the linked tables (injuries required), one single sheet, or several sites");
