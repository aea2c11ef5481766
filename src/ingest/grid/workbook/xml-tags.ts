/** A tag of an XML text: its name without prefix, what stands between the pointed brackets, and its place. */
export interface Tag {
  readonly name: string;
  readonly kind: "open" | "close" | "empty";
  readonly inner: string;
  /** Place of the opening bracket. */
  readonly from: number;
  /** Place behind the closing bracket. */
  readonly to: number;
}

/** What stands between tags and is passed over, by its first and last characters. */
const passedOver = [
  ["<!--", "-->"],
  ["<![CDATA[", "]]>"],
  ["<?", "?>"],
  ["<!", ">"],
] as const;

/**
 * The tags of an XML text in order, in one pass. Comments, character data and instructions are passed over; a tag that
 * does not end ends the walk. This is no parser: it serves to look beside one at what it does not tell.
 */
export function* tagsOf(xml: string): Iterable<Tag> {
  let from = xml.indexOf("<");
  while (from !== -1) {
    const next = xml.charCodeAt(from + 1);
    const other =
      next === mark.exclamation || next === mark.question
        ? passedOver.find(([start]) => xml.startsWith(start, from))
        : undefined;
    const to = other === undefined ? endOfTag(xml, from) : endOf(xml, { from, last: other[1] });
    if (to === -1) return;
    if (other === undefined) yield tagOf(xml, { from, to });
    from = xml.indexOf("<", to);
  }
}

function endOf(xml: string, { from, last }: { from: number; last: string }): number {
  const place = xml.indexOf(last, from);
  return place === -1 ? -1 : place + last.length;
}

const mark = {
  exclamation: 33,
  question: 63,
  quote: 34,
  apostrophe: 39,
  end: 62,
  slash: 47,
  space: 32,
} as const;

function endOfTag(xml: string, from: number): number {
  let open = 0;
  for (let i = from + 1; i < xml.length; i++) {
    const character = xml.charCodeAt(i);
    if (open !== 0) open = character === open ? 0 : open;
    else if (character === mark.end) return i + 1;
    else if (character === mark.quote || character === mark.apostrophe) open = character;
  }
  return -1;
}

function tagOf(xml: string, { from, to }: { from: number; to: number }): Tag {
  const isClose = xml.charCodeAt(from + 1) === mark.slash;
  const isEmpty = xml.charCodeAt(to - 2) === mark.slash;
  const inner = xml.slice(from + (isClose ? 2 : 1), to - (isEmpty ? 2 : 1));
  let end = 0;
  while (end < inner.length && inner.charCodeAt(end) > mark.space) end += 1;
  const name = inner.slice(0, end);
  return {
    name: name.slice(name.indexOf(":") + 1),
    kind: isClose ? "close" : isEmpty ? "empty" : "open",
    inner,
    from,
    to,
  };
}

const named: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

/** Text with the five entities of XML and numbered characters in the place of their codes. */
export const xmlText = (text: string): string =>
  text.replaceAll(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(lt|gt|amp|quot|apos));/gi, (code, hex, digits, name) => {
    if (name !== undefined) return named[String(name).toLowerCase()] ?? code;
    const point = hex === undefined ? Number(digits) : Number.parseInt(hex, 16);
    return point > 0x10ffff ? code : String.fromCodePoint(point);
  });

const attributeForms = new Map<string, RegExp>();

/** An attribute of a tag, by its name without prefix; null where it is not given. */
export function attributeOf({ inner }: Pick<Tag, "inner">, name: string): string | null {
  const form =
    attributeForms.get(name) ?? new RegExp(String.raw`\s(?:[\w-]+:)?${name}\s*=\s*(?:"([^"]*)"|'([^']*)')`);
  attributeForms.set(name, form);
  const found = form.exec(inner);
  return found === null ? null : xmlText(found[1] ?? found[2] ?? "");
}

/** Whether an attribute says yes: `1` or `true`. */
export const saysYes = (value: string | null): boolean => value === "1" || value === "true";
