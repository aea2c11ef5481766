import { plainDefinition } from "../../schema/definitions.js";
import type { Field } from "../../schema/field.js";
import type { SiteRow } from "../../schema/sites.js";
import { tables } from "../../schema/tables.js";
import type { ExactDescription } from "./site-description.js";

/** Columns that name a site or say where it is: they state nothing of how it works. */
const names: readonly string[] = ["site_id", "name", "country"];

/** The columns of the sites table in which a site says what its words mean and how it works. */
export const statedFields: readonly Field[] = (tables.sites.fields as readonly Field[]).filter(
  ({ name }) => !names.includes(name),
);

/** What a site states of itself, column by column; texts that mean the same stand once. */
export const statedOf = (rows: readonly SiteRow[]): ExactDescription["stated"] =>
  statedFields.map(({ name, description, unit = null }) => ({
    field: name,
    definition: description,
    unit,
    values: [
      ...new Map(
        rows
          .map((row) => row[name as keyof SiteRow])
          .flatMap((value) =>
            value === null || value === "" ? [] : [[plainDefinition(String(value)), String(value)]],
          ),
      ).values(),
    ],
  }));
