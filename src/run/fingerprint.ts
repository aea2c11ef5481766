import { z } from "zod";
import type { Machine } from "./machine.js";

export const fingerprintSchema = z.strictObject({
  name: z.string(),
  bytes: z.number().int().min(0),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});

export type Fingerprint = z.infer<typeof fingerprintSchema>;

/** Size and SHA-256 of a file's bytes. */
export function fingerprintOf(
  { name, content }: { readonly name: string; readonly content: string | Uint8Array },
  sha256: Machine["sha256"],
): Fingerprint {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return { name, bytes: bytes.byteLength, sha256: sha256(bytes) };
}
