import type { AskAboutFile } from "../../text/ask-about-file.js";
import { largestFile } from "../../text/text-of-file.js";
import { type UnpackBudget, unpack } from "./unpack.js";
import { type ZipEntry, zipDirectory } from "./zip-directory.js";

/** The parts of a workbook that hold its cells, by name, as text. */
export type WorkbookParts = ReadonlyMap<string, string>;

/** A workbook of common use has some dozens of parts. */
const mostEntries = 10_000;
/** Unpacked text beyond this does not fit the memory of a plain computer together with what is read from it. */
const mostUnpacked = 200_000_000;

const startsWith = (bytes: Uint8Array, start: readonly number[]) =>
  start.every((byte, i) => bytes[i] === byte);
const isZip = (bytes: Uint8Array) => startsWith(bytes, [0x50, 0x4b]);
const isCompound = (bytes: Uint8Array) => startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0]);

/** Whether the bytes begin as a spreadsheet file does, of the kind that is read or of one that is answered. */
export const looksLikeWorkbook = (bytes: Uint8Array): boolean => isZip(bytes) || isCompound(bytes);

const wanted =
  /^xl\/(?:workbook|styles|sharedstrings|worksheets\/[^/]+|[^/]+)\.xml$|\.rels$|^\[content_types\]\.xml$/i;
const isPathLike = (name: string) =>
  /^[/\\]|^[a-z]:|\\|(?:^|\/)\.\.(?:\/|$)/i.test(name) || [...name].some((character) => character < " ");
const declaresEntities = /<!(?:DOCTYPE|ENTITY)/i;

/**
 * Unpacks the parts of a workbook that hold its cells, before anything else looks at the file.
 *
 * Refused, each with a query of severity `stop`: what is no .xlsx (older, binary and other kinds, encrypted files), a
 * damaged archive, more entries or more unpacked text than a workbook has (counted while unpacking, whatever the
 * archive claims), names that are paths, the same name twice, and XML that declares a document type or entities.
 */
export function openArchive(bytes: Uint8Array, ask: AskAboutFile): WorkbookParts | null {
  if (bytes.length > largestFile) {
    ask({ code: "file-too-large", severity: "stop", facts: { limit: largestFile / 1_000_000 } });
    return null;
  }
  if (isCompound(bytes)) {
    ask(
      holdsUtf16(bytes, "EncryptedPackage")
        ? { code: "workbook-encrypted", severity: "stop" }
        : { code: "workbook-other-kind", severity: "stop", facts: { kind: "an older workbook (.xls)" } },
    );
    return null;
  }
  const entries = isZip(bytes) ? zipDirectory(bytes) : null;
  if (entries === null) {
    ask({ code: "workbook-damaged", severity: "stop" });
    return null;
  }
  return refused(entries, ask) ? null : partsOf(entries, ask);
}

function refused(entries: readonly ZipEntry[], ask: AskAboutFile): boolean {
  const names = entries.map(({ name }) => name);
  const unsafe = (what: string) => ask({ code: "workbook-unsafe", severity: "stop", facts: { what } });
  if (names.length > mostEntries) {
    ask({ code: "workbook-too-large", severity: "stop", facts: { what: `more than ${mostEntries} parts` } });
  } else if (names.some(isPathLike)) unsafe("a part whose name is a path");
  else if (new Set(names.map((name) => name.toLowerCase())).size < names.length)
    unsafe("two parts of the same name");
  else if (entries.some(({ isEncrypted }) => isEncrypted))
    ask({ code: "workbook-encrypted", severity: "stop" });
  else if (!names.includes("xl/workbook.xml")) {
    ask({ code: "workbook-other-kind", severity: "stop", facts: { kind: kindOf(names) } });
  } else return false;
  return true;
}

function kindOf(names: readonly string[]): string {
  if (names.includes("xl/workbook.bin")) return "a binary workbook (.xlsb)";
  if (names.includes("mimetype") && names.includes("content.xml")) return "an OpenDocument file (.ods)";
  return "an archive without a workbook in it";
}

function partsOf(entries: readonly ZipEntry[], ask: AskAboutFile): WorkbookParts | null {
  const budget: UnpackBudget = { left: mostUnpacked };
  const parts = new Map<string, string>();
  for (const entry of entries) {
    if (!wanted.test(entry.name)) continue;
    const bytes = unpack(entry, budget);
    const text = typeof bytes === "string" ? null : xmlOf(bytes);
    if (bytes === "too-large" || bytes === "too-dense") {
      const what =
        bytes === "too-large"
          ? `more than ${mostUnpacked / 1_000_000} megabytes once unpacked`
          : "a part that unpacks to more than 200 times its size";
      ask({ code: "workbook-too-large", severity: "stop", facts: { what } });
      return null;
    }
    if (text === null) {
      ask({ code: "workbook-damaged", severity: "stop" });
      return null;
    }
    if (declaresEntities.test(text)) {
      ask({
        code: "workbook-unsafe",
        severity: "stop",
        facts: { what: "a part that declares a document type or entities" },
      });
      return null;
    }
    parts.set(entry.name, text);
  }
  return parts;
}

/** Parts are UTF-8; another encoding could hide what is looked for. */
function xmlOf(bytes: Uint8Array): string | null {
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return text.includes("\0") ? null : text;
  } catch {
    return null;
  }
}

/** How many bytes of a compound file are searched for the name of a stream. */
const searched = 2_000_000;

function holdsUtf16(bytes: Uint8Array, name: string): boolean {
  const start = new TextDecoder("latin1").decode(bytes.subarray(0, searched));
  return start.includes([...name].join("\0"));
}
