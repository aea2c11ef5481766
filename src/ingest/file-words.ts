import type { DataQuery } from "../schema/data-query.js";
import type { Files } from "./answers/row-names.js";

/** The words of a file that was translated into our columns: for questions to the site, and for its answers. */
export interface FileWords {
  /** A query about a column of ours as one about the file: its own column, the cell as it stands there. */
  readonly asWritten: (query: DataQuery) => DataQuery;
  /** A cell that the site writes anew, in its own words, as our text. */
  readonly inOurText: (cell: {
    readonly column: string;
    readonly row: number;
    readonly text: string;
  }) => string;
}

/** Says queries in the words of the files they are about. */
export function asWrittenIn(files: Files): FileWords["asWritten"] {
  const words = new Map(
    [...files.values()].flatMap(({ file, read }) => (read.words ? [[file, read.words]] : [])),
  );
  return (query) => words.get(query.file)?.asWritten(query) ?? query;
}
