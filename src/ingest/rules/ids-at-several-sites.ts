import { sharedKey } from "../../schema/person-key.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, type LinkRule } from "./link-rule.js";
import { personNamer } from "./persons.js";

/** The same person id at several sites, where the study does not state whether that is one person: asked once. */
export const idsAtSeveralSites: LinkRule = function* ({ tables }, { personIds }) {
  if (personIds !== undefined) return;
  const first = tables.injuries[0]?.values.site_id;
  // most cohorts are of one site
  if (tables.injuries.every(({ values }) => values.site_id === first)) return;
  const personOf = personNamer(tables.personIds);
  const several = [...byKey(tables.injuries, (row) => sharedKey(personOf(row))).values()].filter((rows) =>
    rows.some(({ values }) => values.site_id !== rows[0]!.values.site_id),
  );
  if (several.length === 0) return;
  yield askAboutColumn(several[0]![0]!, {
    code: "person-ids-at-several-sites",
    column: "person_id",
    found: String(several.length),
    facts: { injuries: several.flat().length },
  });
};
