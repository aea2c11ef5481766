import type { AskAboutFile } from "./ask-about-file.js";
import { type DecodedText, decodeText } from "./decode-text.js";

/** Larger files are not read, bytes. */
export const largestFile = 300_000_000;

/** The text of a file with the encoding it was read by; null after a query of severity `stop`. */
export function textOfFile(
  bytes: Uint8Array,
  ask: AskAboutFile,
): Extract<DecodedText, { text: string }> | null {
  if (bytes.length > largestFile) {
    ask({ code: "file-too-large", severity: "stop", facts: { limit: largestFile / 1_000_000 } });
    return null;
  }
  const decoded = decodeText(bytes);
  if ("notText" in decoded) {
    ask({ code: "file-not-text", severity: "stop", facts: { kind: decoded.notText } });
    return null;
  }
  if (decoded.text.trim() === "") {
    ask({ code: "file-empty", severity: "stop" });
    return null;
  }
  if (decoded.encoding === "windows-1252") ask({ code: "file-not-utf8", severity: "look-at" });
  return decoded;
}
