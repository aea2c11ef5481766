import type { PooledResults } from "../../pooling/pooled/index.js";
import { labelOf } from "../../schema/labels.js";
import { capital } from "../../words/phrases.js";
import type { Safe } from "../escape.js";
import { type Row, table } from "../layout/table.js";

/** What the sites mean, record, how they see their people and whom they lose. */
export const sitesPart = ({ harmonised }: PooledResults): Safe =>
  table({
    caption: "What the sites state of themselves",
    columns: [{ head: "Site" }, { head: "What it says" }],
    groups: harmonised.stated.map(({ field, sites }) => ({
      heading: capital(labelOf(field)),
      rows: sites.map(
        ({ site, values }): Row => [site, values.length === 0 ? "not stated" : values.join("; ")],
      ),
    })),
  });
