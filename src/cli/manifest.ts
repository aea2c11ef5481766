import { createHash } from "node:crypto";
import { z } from "zod";
import type { OutputFile } from "./files.js";

const fingerprint = z.strictObject({
  name: z.string(),
  bytes: z.number().int().min(0),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});

/** What a report folder was made from and what it holds, so that anybody can recompute it. */
export const manifestSchema = z.strictObject({
  format: z.literal("pulley-outcomes manifest 1"),
  toolkit_version: z.string(),
  engine: z
    .string()
    .describe(
      "What the report was computed with; every other line and file is the same under each supported engine",
    ),
  synthetic: z.boolean(),
  study_file: fingerprint,
  inputs: z.array(fingerprint).describe("Tables, named as in the study file"),
  outputs: z.array(fingerprint).describe("Every other file of the folder"),
});

export type Manifest = z.infer<typeof manifestSchema>;
export type Fingerprint = z.infer<typeof fingerprint>;

export const sha256 = (content: string | Uint8Array): string =>
  createHash("sha256").update(content).digest("hex");

/** Size and SHA-256 of a file's bytes. */
export function fingerprintOf(name: string, content: string | Uint8Array): Fingerprint {
  const bytes = typeof content === "string" ? Buffer.byteLength(content) : content.byteLength;
  return { name, bytes, sha256: sha256(content) };
}

/** The manifest as the last file of a folder, outputs in order of their path. */
export function manifestFile(
  made: Omit<Manifest, "format" | "outputs">,
  outputs: readonly OutputFile[],
): OutputFile {
  const manifest: Manifest = {
    format: "pulley-outcomes manifest 1",
    ...made,
    outputs: outputs
      .map(({ path, content }) => fingerprintOf(path, content))
      .sort((a, b) => (a.name < b.name ? -1 : 1)),
  };
  return fileOf(manifest);
}

/** A manifest as another engine would have written it: recomputing compares what was computed, not by what. */
export const manifestOfEngine = ({ content }: OutputFile, engine: string): OutputFile =>
  fileOf({ ...manifestSchema.parse(JSON.parse(String(content))), engine });

const fileOf = (manifest: Manifest): OutputFile => ({
  path: "manifest.json",
  content: `${JSON.stringify(manifest, null, 2)}\n`,
});
