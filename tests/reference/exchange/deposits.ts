import Papa from "papaparse";
import { linkTables } from "../../../src/cohort/index.js";
import {
  adtteDefinitions,
  adtteOf,
  adtteResource,
  adtteText,
  plainResource,
  tableResource,
} from "../../../src/exchange/index.js";
import { questionOf } from "../../../src/study/question-of.js";
import { committed, copyWith, readCopy } from "../../behaviour/privacy/cohorts.js";

/** A CSV as rows of text by column. */
export const rowsOfText = (text: string): readonly Readonly<Record<string, string>>[] =>
  Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;

/** The parts of a deposit of a committed SYNTHETIC cohort. */
export function depositOf(folder: string) {
  const { plan, read } = committed(folder);
  const copy = copyWith(read, { closedOn: plan.data.closed_on ?? null });
  const again = readCopy(copy, plan);
  const question = questionOf({ ...plan, data: { ...plan.data, closed_on: undefined } as typeof plan.data });
  const adtte = adtteOf(linkTables(again.tables), { question, study: plan.study });
  const others = copy.tables.map(({ table }) => table);
  const resources = [
    ...copy.tables.map(({ table, text, columns }) =>
      tableResource(table, { path: `${table}.csv`, text, columns, others }),
    ),
    adtteResource({ path: "adtte.csv", text: adtteText(adtte) }),
    plainResource({
      name: "adtte-variables",
      path: "adtte-variables.csv",
      title: "Definitions",
      text: adtteDefinitions(adtte),
    }),
  ];
  return { plan, read, copy, adtte, resources };
}
