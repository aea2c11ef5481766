/** Advance widths of a TrueType face by code point, in font units. */
export interface FaceWidths {
  readonly unitsPerEm: number;
  /** Width of the glyph that stands in for a character the face lacks. */
  readonly missing: number;
  readonly widths: ReadonlyMap<number, number>;
}

/**
 * Reads the advance widths out of a TrueType file.
 *
 * @param bytes the file; needs the tables head, hhea, hmtx and a cmap with a format 4 subtable
 * @throws Error naming the table that is missing
 * @source OpenType specification 1.9: table directory, head, hhea, hmtx, cmap format 4
 */
export function truetypeWidths(bytes: Uint8Array): FaceWidths {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables = tableOffsets(view);
  const advance = advanceOf(view, tables);
  const glyphs = glyphsOf(view, characterMap(view, tables("cmap")));
  return {
    unitsPerEm: view.getUint16(tables("head") + 18),
    missing: advance(0),
    widths: new Map([...glyphs].map(([code, glyph]) => [code, advance(glyph)])),
  };
}

function tableOffsets(view: DataView): (tag: string) => number {
  const offsets = new Map<string, number>();
  for (let i = 0; i < view.getUint16(4); i += 1) {
    const entry = 12 + 16 * i;
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((byte) => view.getUint8(entry + byte)));
    offsets.set(tag, view.getUint32(entry + 8));
  }
  return (tag) => {
    const offset = offsets.get(tag);
    if (offset === undefined)
      throw new Error(`The font has no table "${tag}"; a TrueType file was expected.`);
    return offset;
  };
}

/** Glyphs beyond the last full entry of hmtx share its width. */
function advanceOf(view: DataView, tables: (tag: string) => number): (glyph: number) => number {
  const entries = view.getUint16(tables("hhea") + 34);
  const start = tables("hmtx");
  return (glyph) => view.getUint16(start + 4 * Math.min(glyph, entries - 1));
}

function characterMap(view: DataView, cmap: number): number {
  for (let i = 0; i < view.getUint16(cmap + 2); i += 1) {
    const subtable = cmap + view.getUint32(cmap + 4 + 8 * i + 4);
    if (view.getUint16(subtable) === 4) return subtable;
  }
  throw new Error('The font\'s table "cmap" has no subtable of format 4.');
}

/** Segments of a format 4 subtable: end codes, a pad, start codes, deltas, offsets into the glyph array. */
function glyphsOf(view: DataView, subtable: number): Map<number, number> {
  const doubled = view.getUint16(subtable + 6);
  const [ends, starts] = [subtable + 14, subtable + 16 + doubled];
  const [deltas, offsets] = [starts + doubled, starts + 2 * doubled];
  const glyphs = new Map<number, number>();
  for (let i = 0; i < doubled; i += 2) {
    const last = Math.min(view.getUint16(ends + i), 0xfffe);
    const [first, delta] = [view.getUint16(starts + i), view.getUint16(deltas + i)];
    const offset = view.getUint16(offsets + i);
    for (let code = first; code <= last; code += 1) {
      const listed = offset === 0 ? code : view.getUint16(offsets + i + offset + 2 * (code - first));
      if (offset === 0 || listed !== 0) glyphs.set(code, (listed + delta) & 0xffff);
    }
  }
  return glyphs;
}
