/** A file within an archive, as its central directory describes it. */
export interface ZipEntry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly isEncrypted: boolean;
  readonly packed: Uint8Array;
  /** Size once unpacked and its check sum, as claimed. */
  readonly size: number;
  readonly checkSum: number;
}

const signatures = { local: 0x04034b50, central: 0x02014b50, end: 0x06054b50 } as const;
const lengths = { local: 30, central: 46, end: 22, longestComment: 65_535 } as const;

/**
 * The entries of a ZIP archive from its central directory; null where the directory cannot be read. Nothing is
 * unpacked. Archives in parts, or with the 64-bit extension, are not read: no workbook within our bounds needs them.
 *
 * @source ZIP file format: ISO/IEC 21320-1:2015
 */
export function zipDirectory(bytes: Uint8Array): readonly ZipEntry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = placeOfEnd(view);
  if (end === null) return null;
  const count = view.getUint16(end + 10, true);
  const entries: ZipEntry[] = [];
  let place = view.getUint32(end + 16, true);
  for (let i = 0; i < count; i++) {
    const entry = entryAt(bytes, { view, place });
    if (entry === null) return null;
    entries.push(entry.entry);
    place = entry.next;
  }
  return entries;
}

function placeOfEnd(view: DataView): number | null {
  const first = Math.max(0, view.byteLength - lengths.end - lengths.longestComment);
  for (let i = view.byteLength - lengths.end; i >= first; i--) {
    if (view.getUint32(i, true) === signatures.end) return i;
  }
  return null;
}

function entryAt(
  bytes: Uint8Array,
  { view, place }: { view: DataView; place: number },
): { entry: ZipEntry; next: number } | null {
  if (place + lengths.central > view.byteLength) return null;
  if (view.getUint32(place, true) !== signatures.central) return null;
  const nameLength = view.getUint16(place + 28, true);
  const name = bytes.subarray(place + lengths.central, place + lengths.central + nameLength);
  const packed = packedBytes(bytes, {
    view,
    local: view.getUint32(place + 42, true),
    size: view.getUint32(place + 20, true),
  });
  if (packed === null) return null;
  const entry: ZipEntry = {
    name: new TextDecoder().decode(name),
    method: view.getUint16(place + 10, true),
    isEncrypted: (view.getUint16(place + 8, true) & 1) === 1,
    packed,
    size: view.getUint32(place + 24, true),
    checkSum: view.getUint32(place + 16, true),
  };
  const extras = view.getUint16(place + 30, true) + view.getUint16(place + 32, true);
  return { entry, next: place + lengths.central + nameLength + extras };
}

function packedBytes(
  bytes: Uint8Array,
  { view, local, size }: { view: DataView; local: number; size: number },
): Uint8Array | null {
  if (local + lengths.local > view.byteLength) return null;
  if (view.getUint32(local, true) !== signatures.local) return null;
  const start = local + lengths.local + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  return start + size > bytes.length ? null : bytes.subarray(start, start + size);
}
