import { columnLetters } from "../column-letters.js";
import { addressOf } from "./sheet-facts.js";
import { attributeOf, tagsOf } from "./xml-tags.js";

const cellWithoutAddress = /<(?:\w+:)?c(?:\s+(?!r\s*=)[\w:]+\s*=\s*(?:"[^"]*"|'[^']*'))*\s*\/?>/;

/**
 * A sheet whose cells all say where they stand. Addresses are optional: a cell without one follows the cell before it,
 * a row without a number the row before. Some writers leave them out, and the reader of cells needs them.
 *
 * @source ECMA-376-1:2016, 18.3.1.4 (c) and 18.3.1.73 (row)
 */
export function withAddresses(xml: string): string {
  if (!cellWithoutAddress.test(xml)) return xml;
  const pieces: string[] = [];
  let [row, column, done] = [0, 0, 0];
  for (const tag of tagsOf(xml)) {
    if (tag.kind === "close") continue;
    if (tag.name === "row") {
      row = Number(attributeOf(tag, "r") ?? row + 1);
      column = 0;
    } else if (tag.name === "c") {
      const given = attributeOf(tag, "r");
      column = given === null ? column : (addressOf(given)?.column ?? column);
      if (given === null) {
        const behindName = tag.from + 1 + tag.inner.search(/\s|$/);
        pieces.push(xml.slice(done, behindName), ` r="${columnLetters(column)}${row}"`);
        done = behindName;
      }
      column += 1;
    }
  }
  return pieces.join("") + xml.slice(done);
}
