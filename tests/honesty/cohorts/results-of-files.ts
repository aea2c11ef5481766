import { readCohort } from "../../../src/ingest/index.js";
import { answer, type Results, readPlan } from "../../../src/study/index.js";
import type { Files } from "./tables.js";

/** The results of a cohort's files, by the way of every report. A row that is set aside is a fault of the program that wrote it. */
export function resultsOfFiles(files: Files): Results {
  const plan = readPlan("study.yaml", files.study);
  const sources = (["injuries", "treatments", "visits"] as const).flatMap((table) => {
    const text = files[table];
    return text === null ? [] : [{ table, file: `${table}.csv`, bytes: new TextEncoder().encode(text) }];
  });
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    dateOrder: plan.data.date_order,
  });
  const aside = read.accounts.flatMap(({ file, setAside }) =>
    setAside.map(({ row, query }) => `${file}, row ${row}: ${query.code}`),
  );
  if (aside.length > 0) throw new Error(`Rows of a drawn cohort were set aside: ${aside.join("; ")}`);
  return answer(read, plan);
}
