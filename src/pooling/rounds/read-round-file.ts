import type { z } from "zod";
import { PoolingFileError } from "../pooling-file-error.js";
import { type AnswerFile, answerFileSchema, type PointFile, pointFileSchema } from "./round-files.js";
import { checkSeal, type Sha256 } from "./seal.js";

/** A file as it came, under the name that an error will use. */
export interface NamedText {
  readonly file: string;
  readonly text: string;
}

export type RoundFile =
  | { readonly file: string; readonly kind: "point"; readonly content: PointFile }
  | { readonly file: string; readonly kind: "answer"; readonly content: AnswerFile };

const again = "Name a file that pulley-outcomes round has written, as it was written.";

function parsed({ file, text }: NamedText): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    throw new PoolingFileError({ file, problem: `this is no JSON (${detail}).`, correction: again });
  }
}

const kindOf = (value: unknown): unknown =>
  typeof value === "object" && value !== null && "kind" in value ? value.kind : undefined;

const placeOf = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (place, step) =>
      typeof step === "number"
        ? `${place}[${step}]`
        : place === ""
          ? String(step)
          : `${place}.${String(step)}`,
    "",
  );

/**
 * A file of a round, held against its schema and its own fingerprint.
 *
 * @throws PoolingFileError naming the file and the place at fault
 */
export function readRoundFile(named: NamedText, sha256: Sha256): RoundFile {
  const { file } = named;
  const value = parsed(named);
  const kind = kindOf(value);
  if (kind !== "point" && kind !== "answer")
    throw new PoolingFileError({
      file,
      place: "kind",
      problem: `this is neither the point nor the answer of a round (kind: ${JSON.stringify(kind) ?? "none"}).`,
      correction: again,
    });
  const read = (kind === "point" ? pointFileSchema : answerFileSchema).safeParse(value);
  if (!read.success) throw notAsWritten(file, read.error);
  checkSeal(read.data, { file, sha256 });
  const found = { file, kind, content: read.data } as RoundFile;
  checkShapes(found);
  return found;
}

function notAsWritten(file: string, error: z.ZodError): PoolingFileError {
  const [issue] = error.issues;
  return new PoolingFileError({
    file,
    place: placeOf(issue?.path ?? []),
    problem: `${issue?.message ?? "not as a round writes it"}.`,
    correction: again,
  });
}

function checkShapes({ file, content }: RoundFile): void {
  if (content.kind === "point") {
    if (content.shared.length !== content.parameters.length)
      throw unlike(file, "shared", content.shared.length, content.parameters.length);
    return;
  }
  checkMatrix(file, "information", content);
  if (content.squares !== null) checkMatrix(file, "squares", content);
  if (content.deletions !== null) checkMatrix(file, "deletions", content);
}

/** As many rows and columns as the score (deletions: as rows), symmetric, and nothing negative on the diagonal of what is a sum of squares. */
function checkMatrix(file: string, name: "information" | "squares" | "deletions", content: AnswerFile): void {
  const rows = content[name]!;
  const size = name === "deletions" ? rows.length : content.score.length;
  if (rows.length !== size) throw unlike(file, name, rows.length, size);
  rows.forEach((row, j) => {
    if (row.length !== size) throw unlike(file, `${name}[${j}]`, row.length, size);
    row.forEach((value, k) => {
      const mirror = rows[k]?.[j] ?? Number.NaN;
      // rounding is as large as the diagonal makes it, also where an entry should be 0
      const size = Math.abs(value) + Math.abs(mirror) + Math.sqrt(Math.abs(row[j]! * (rows[k]?.[k] ?? 0)));
      if (!(Math.abs(value - mirror) <= 1e-9 * size))
        throw new PoolingFileError({
          file,
          place: `${name}[${j}][${k}]`,
          problem: `${value} should equal its mirror image, ${mirror}.`,
          correction: again,
        });
    });
    if (name === "squares" && row[j]! < 0)
      throw new PoolingFileError({
        file,
        place: `${name}[${j}][${j}]`,
        problem: `a sum of squares cannot be ${row[j]}.`,
        correction: again,
      });
  });
}

const unlike = (file: string, place: string, found: number, expected: number): PoolingFileError =>
  new PoolingFileError({
    file,
    place,
    problem: `${found} entries where ${expected} are expected.`,
    correction: again,
  });
