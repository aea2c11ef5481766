import type { Files, FileWords } from "../text/rows-of-file.js";

/** Says queries in the words of the files they are about. */
export function asWrittenIn(files: Files): FileWords["asWritten"] {
  const words = new Map(
    [...files.values()].flatMap(({ file, read }) => (read.words ? [[file, read.words]] : [])),
  );
  return (query) => words.get(query.file)?.asWritten(query) ?? query;
}
