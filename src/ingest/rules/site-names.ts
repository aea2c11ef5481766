import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import { byKey, type LinkRule } from "./link-rule.js";
import { comparableId } from "./near-duplicates.js";

/**
 * Names of sites that differ in their writing only: spaces, hyphens, letter case, accents composed or not, letters of
 * another alphabet that look the same. One site under two names would be compared with itself.
 */
export const siteIdsAlike: LinkRule = function* ({ tables }) {
  const rows: readonly TypedRow<{ readonly site_id: string | null }>[] = [
    ...tables.injuries,
    ...tables.sites,
  ];
  const named = rows.filter(({ values }) => values.site_id !== null);
  const firstRows = [...byKey(named, ({ values }) => values.site_id!).values()].map(([first]) => first!);
  for (const alike of byKey(firstRows, ({ values }) => comparableId(values.site_id!)).values()) {
    const [first] = alike;
    for (const row of alike.slice(1)) {
      yield askAbout(row, {
        code: "site-ids-alike",
        severity: "look-at",
        column: "site_id",
        found: row.values.site_id,
        facts: { other: first!.values.site_id!, other_row: first!.row, other_file: first!.file },
      });
    }
  }
};
