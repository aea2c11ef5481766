import { attributeOf, tagsOf } from "./xml-tags.js";

/** The number format of a style: its number, and its code where the workbook writes one. */
export interface StyleFormat {
  readonly id: number;
  readonly code: string;
}

/**
 * The number formats that cells may wear, in the order by which cells name them.
 *
 * @source ECMA-376-1:2016, 18.8.10 (cellXfs) and 18.8.30 (numFmt)
 */
export function styleFormats(styles: string): readonly StyleFormat[] {
  const codes = new Map<string, string>();
  const formats: StyleFormat[] = [];
  let isCells = false;
  for (const tag of tagsOf(styles)) {
    if (tag.name === "numFmt" && tag.kind !== "close") {
      codes.set(attributeOf(tag, "numFmtId") ?? "", attributeOf(tag, "formatCode") ?? "");
    } else if (tag.name === "cellXfs") isCells = tag.kind === "open";
    else if (tag.name === "xf" && tag.kind !== "close" && isCells) {
      const id = attributeOf(tag, "numFmtId") ?? "0";
      formats.push({ id: Number(id), code: codes.get(id) ?? "" });
    }
  }
  return formats;
}

/** Built-in formats that show a day and no time. */
const builtInDays: ReadonlySet<number> = new Set([14, 15, 16, 17]);
/** What of a code stands for itself: text in quotation marks, behind a backslash, or in brackets. */
const literals = /"[^"]*"|\\.|\[[^\]]*\]/g;

/** Whether a format shows a day without the time of day. */
export function showsDayOnly({ id, code }: StyleFormat): boolean {
  if (code === "") return builtInDays.has(id);
  const tokens = (code.split(";")[0] ?? "").replaceAll(literals, "").toLowerCase();
  return /[dy]/.test(tokens) && !/[hs0#]/.test(tokens);
}
