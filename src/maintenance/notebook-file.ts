import { z } from "zod";

const lines = z.union([z.string(), z.array(z.string())]);

/** The parts of a notebook (format 4) that the runner reads and writes; others are kept as they are. */
export const notebookSchema = z.looseObject({
  nbformat: z.literal(4),
  cells: z.array(
    z.looseObject({
      cell_type: z.enum(["markdown", "code", "raw"]),
      source: lines,
      execution_count: z.number().nullable().optional(),
      outputs: z.array(z.unknown()).optional(),
    }),
  ),
});

export type Notebook = z.infer<typeof notebookSchema>;
export type NotebookCell = Notebook["cells"][number];

/** The text of a cell, which the format allows as one string or as a list of lines. */
export const textOf = (source: NotebookCell["source"]): string =>
  typeof source === "string" ? source : source.join("");

/** A text as the format's list of lines, each with its line end. */
export const linesOf = (text: string): string[] => text.split(/(?<=\n)/);

/** The text of a notebook file. */
export const notebookText = (notebook: Notebook): string => `${JSON.stringify(notebook, null, 1)}\n`;
