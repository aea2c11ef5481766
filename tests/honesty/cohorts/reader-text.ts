import { plainWords, sectionsOf } from "../../../src/report/index.js";
import type { Results } from "../../../src/study/index.js";

/** A table as a reader sees it: a row under each heading, the heading before its cells. */
export interface ReaderTable {
  readonly caption: string;
  readonly rows: readonly { readonly heading: string; readonly cells: readonly string[] }[];
}

/** What a reader of a report reads: the sentences of the plain words, and every table. */
export interface ReaderText {
  readonly sentences: readonly string[];
  readonly tables: readonly ReaderTable[];
}

/** The words of a report without its markup, with plain spaces and a plain minus sign. */
export function readerText(results: Results): ReaderText {
  const page = sectionsOf({ results, figures: [], version: "" }).map(({ body }) => body.markup);
  return {
    sentences: plainWords(results).flat().map(plainCharacters),
    tables: page.flatMap((markup) => (markup.match(/<table>[\s\S]*?<\/table>/g) ?? []).map(tableOf)),
  };
}

function tableOf(markup: string): ReaderTable {
  const caption = /<caption>([\s\S]*?)<\/caption>/.exec(markup)![1]!;
  let heading = "";
  const rows: { heading: string; cells: string[] }[] = [];
  for (const [, row] of markup.matchAll(/<tr[^>]*>([\s\S]*?)<\/tr>/g)) {
    const cells = [...row!.matchAll(/<t[hd][^>]*>([\s\S]*?)<\/t[hd]>/g)].map(([, cell]) => textOf(cell!));
    if (row!.includes('scope="rowgroup"')) heading = cells[0]!;
    else if (!row!.includes('scope="col"')) rows.push({ heading, cells });
  }
  return { caption: textOf(caption), rows };
}

const entities: Readonly<Record<string, string>> = {
  "&lt;": "<",
  "&gt;": ">",
  "&quot;": '"',
  "&#39;": "'",
  "&amp;": "&",
};

const textOf = (markup: string): string =>
  plainCharacters(
    markup
      .replaceAll(/<br>/g, " ")
      .replaceAll(/<[^>]*>/g, "")
      .replaceAll(/&(?:lt|gt|quot|#39|amp);/g, (entity) => entities[entity]!),
  ).trim();

const plainCharacters = (text: string): string => text.replaceAll("\u00a0", " ").replaceAll("\u2212", "-");
