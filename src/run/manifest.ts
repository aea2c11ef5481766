import { z } from "zod";
import { jsonText } from "../schema/json-text.js";
import { type Fingerprint, fingerprintOf, fingerprintSchema } from "./fingerprint.js";
import type { Machine } from "./machine.js";

/** A file to be written, its path relative to the folder, with forward slashes. */
export interface OutputFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

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
  study_file: fingerprintSchema.describe(
    "The study file: its name, and the text of study.yaml, which says the same without comments",
  ),
  small_cells: z
    .strictObject({ choice: z.enum(["written", "leave-out"]), smallest: z.number().int().min(2) })
    .describe("Whether counts with fewer people than the smallest cell behind them are written"),
  inputs: z
    .array(fingerprintSchema)
    .describe(
      "Tables, named as in the study file of the folder: relative to it, or by the file's name alone",
    ),
  outputs: z.array(fingerprintSchema).describe("Every other file of the folder"),
});

export type Manifest = z.infer<typeof manifestSchema>;

/** What the manifest of each kind of folder that this toolkit writes says it is. */
export const folderFormats = {
  report: "pulley-outcomes manifest 1",
  "shared copy": "pulley-outcomes shared copy 1",
  deposit: "pulley-outcomes deposit 1",
  contribution: "pulley-outcomes contribution 1",
  "pooled report": "pulley-outcomes pooled report 1",
  "folder of figures": "pulley-outcomes figures 1",
} as const;
export type FolderKind = keyof typeof folderFormats;
const folderKinds = Object.keys(folderFormats) as readonly FolderKind[];

/** Manifests of every folder that this toolkit writes, of this version and earlier ones, as far as they list files. */
const listedSchema = z.looseObject({
  format: z.enum(Object.values(folderFormats)),
  toolkit_version: z.string(),
  synthetic: z.boolean(),
  outputs: z.array(fingerprintSchema),
});

/** A path below the folder, as this toolkit writes it. */
const isPathBelow = (name: string): boolean =>
  name.split("/").every((part) => !["", ".", ".."].includes(part)) && !/[\\\0]/.test(name);

/** What a manifest says its folder is and holds. */
export interface Listing {
  readonly kind: FolderKind;
  /** The files, by path. */
  readonly files: ReadonlyMap<string, Fingerprint>;
}

/** What the text of a manifest lists; null where it is no manifest of this toolkit. */
export function listingOf(text: string): Listing | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  const read = listedSchema.safeParse(value);
  if (!read.success || !read.data.outputs.every(({ name }) => isPathBelow(name))) return null;
  const { format, outputs } = read.data;
  return {
    kind: folderKinds.find((kind) => folderFormats[kind] === format)!,
    files: new Map(outputs.map((listed) => [listed.name, listed])),
  };
}

/** The files of a folder as its manifest lists them, in order of their path. */
export const listedFiles = (files: readonly OutputFile[], sha256: Machine["sha256"]): Fingerprint[] =>
  files
    .map(({ path, content }) => fingerprintOf({ name: path, content }, sha256))
    .sort((one, other) => (one.name < other.name ? -1 : 1));

/** The manifest as the last file of a folder, outputs in order of their path. */
export function manifestFile(
  { outputs, ...made }: Omit<Manifest, "format" | "outputs"> & { readonly outputs: readonly OutputFile[] },
  sha256: Machine["sha256"],
): OutputFile {
  const manifest: Manifest = {
    format: folderFormats.report,
    ...made,
    outputs: listedFiles(outputs, sha256),
  };
  return fileOf(manifest);
}

/** A manifest as another engine would have written it: recomputing compares what was computed, not by what. */
export const manifestOfEngine = ({ content }: OutputFile, engine: string): OutputFile =>
  fileOf({ ...manifestSchema.parse(JSON.parse(String(content))), engine });

const fileOf = (manifest: Manifest): OutputFile => ({
  path: "manifest.json",
  content: jsonText(manifest),
});
