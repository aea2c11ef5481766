import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { decodeText } from "../../../src/ingest/index.js";

const bytesOf = (...start: readonly number[]) => Uint8Array.from([...start, 10, 13, 65, 66]);

describe("a file of another kind is told by how it begins", () => {
  it.each([
    ["a compressed file", gzipSync("person,grade\n"), "it is a compressed file"],
    // by the signatures that their formats publish: ISO 32000, PNG (ISO/IEC 15948), JPEG (ITU-T T.81)
    ["a PDF file", new TextEncoder().encode("%PDF-1.7\n"), "it is a PDF file"],
    ["a PNG picture", bytesOf(0x89, 0x50, 0x4e, 0x47), "it is a picture"],
    ["a JPEG picture", bytesOf(0xff, 0xd8, 0xff, 0xe0), "it is a picture"],
    // Compound File Binary, in which older spreadsheets are stored
    [
      "an older spreadsheet",
      bytesOf(0xd0, 0xcf, 0x11, 0xe0),
      "it is a spreadsheet file of an older kind (xls)",
    ],
  ])("%s", (_, bytes, notText) => {
    expect(decodeText(bytes)).toEqual({ notText });
  });
});
