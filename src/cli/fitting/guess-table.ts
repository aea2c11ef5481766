import type { Proposal } from "../../ingest/mapping/index.js";
import { oneLine } from "../../schema/index.js";
import { cut } from "./cut.js";

const widestColumn = 34;
const widestLine = 118;

/** The guesses as lines of text: the column that is needed, the file's column, how sure the match is, and the evidence. */
export function guessTable({ guesses }: Pick<Proposal, "guesses">): readonly string[] {
  const rows = guesses.map(({ field, sources, confidence, evidence }) => ({
    ours: field.name,
    theirs: cut(oneLine(sources.join(" + ")), widestColumn),
    confidence: confidence === "unsure" ? "asked" : confidence,
    evidence: oneLine(evidence.filter((each) => !each.startsWith('header "')).join("; ")),
  }));
  const width = (key: "ours" | "theirs", title: string) =>
    Math.max(title.length, ...rows.map((row) => row[key].length));
  const [ours, theirs] = [width("ours", "column needed"), width("theirs", "column of the file")];
  const line = (cells: readonly [string, string, string]) =>
    `  ${cells[0].padEnd(ours)}  ${cells[1].padEnd(theirs)}  ${cells[2].padEnd(6)}  `;
  const head = `${line(["column needed", "column of the file", "match"])}evidence`;
  return [
    head,
    ...rows.flatMap((row) => wrapped(line([row.ours, row.theirs, row.confidence]), row.evidence)),
  ];
}

/** Text behind a beginning, continued below itself. */
function wrapped(beginning: string, text: string): readonly string[] {
  const room = Math.max(30, widestLine - beginning.length);
  const lines: string[] = [];
  let current = "";
  for (const word of text.split(" ")) {
    if (current !== "" && current.length + 1 + word.length > room) {
      lines.push(current);
      current = word;
    } else current = current === "" ? word : `${current} ${word}`;
  }
  return [...lines, current].map((part, i) => (i === 0 ? beginning : " ".repeat(beginning.length)) + part);
}
