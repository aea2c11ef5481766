import { createHash } from "node:crypto";
import { openStudy, resultsOf, type StudyInput } from "../../../src/run/index.js";
import { csvText } from "../../../src/schema/index.js";
import { type Results, resultsSchema } from "../../../src/study/index.js";
import type { Row } from "../study/hand-made.js";

/** Files of a study of several sites, in memory. */
export type Files = Readonly<Record<string, string>>;

export const csv = (rows: readonly Row[]): string => {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return csvText(
    columns,
    rows.map((row) => columns.map((column) => row[column] ?? "")),
  );
};

/** Opens study.yaml among the files. */
export const opened = (files: Files): Promise<StudyInput> => {
  const bytesOf = (file: string) => {
    const text = files[file];
    if (text === undefined) throw new Error(`there is no file ${file}`);
    return new TextEncoder().encode(text);
  };
  return openStudy(
    {
      name: "study.yaml",
      bytes: bytesOf("study.yaml"),
      shownNames: () => (file) => file,
      open: (file) => Promise.resolve(bytesOf(file)),
    },
    {
      progress: () => {},
      notice: () => {},
      sha256: (content) => createHash("sha256").update(content).digest("hex"),
    },
  );
};

/** The results of study.yaml among the files. */
export async function resultsOfSites(
  files: Files,
  choice: "written" | "leave-out" = "written",
): Promise<Results> {
  const results = await resultsOf(await opened(files), { choice, smallest: 5 });
  resultsSchema.parse(results);
  return results;
}
