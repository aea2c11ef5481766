import { jsonText } from "../../schema/json-text.js";
import { canonicalText } from "../../schema/ordered-keys.js";
import { PoolingFileError } from "../pooling-file-error.js";

export type Sha256 = (content: string) => string;

/** The content with its own fingerprint. */
export function seal<Content extends object>(
  content: Content,
  sha256: Sha256,
): Content & { readonly sha256: string } {
  return { ...content, sha256: sha256(canonicalText(content)) };
}

/** The text of a sealed file: the same content gives the same bytes. */
export const sealedText = (file: object): string => jsonText(file);

/** @throws PoolingFileError where the fingerprint in a file is not that of its content */
export function checkSeal(
  content: { readonly sha256: string },
  { file, sha256 }: { readonly file: string; readonly sha256: Sha256 },
): void {
  const { sha256: written, ...rest } = content;
  const found = sha256(canonicalText(rest));
  if (found === written) return;
  throw new PoolingFileError({
    file,
    place: "sha256",
    problem: `the content does not have the fingerprint that the file names (${written.slice(0, 12)}..., found ${found.slice(0, 12)}...); it was altered after it was written.`,
    correction: "Use the file as it was written, or ask whoever wrote it for it again.",
  });
}
