import { readFileSync } from "node:fs";
import {
  type CohortForSite,
  readCohortForSite,
  readFileAsGrid,
  shapeSheet,
} from "../../../../src/ingest/index.js";
import {
  type Mapping,
  openMapped,
  type Proposal,
  type ProposeOptions,
  proposeMapping,
  settleQuestion,
} from "../../../../src/ingest/mapping/index.js";

export const options = { closedOn: "2025-12-01", thresholdMm: 2 };

/** An invented sheet of this folder; how it was made, and so what must come out, stands in the README beside it. */
const source = (file: string) =>
  ({ table: "single_sheet", file, bytes: readFileSync(new URL(file, import.meta.url)) }) as const;

export async function proposalFor(
  file: string,
  told: Partial<ProposeOptions> = {},
  changed?: string,
): Promise<Proposal> {
  const bytes = changed === undefined ? {} : { bytes: new TextEncoder().encode(changed) };
  const { grid } = await readFileAsGrid({ ...source(file), ...bytes });
  return proposeMapping(shapeSheet(grid!)!, { name: "trial", table: "single_sheet", ...told });
}

/** A mapping with its questions answered, in the order in which they are asked. */
export const answered = (mapping: Mapping, answers: readonly string[]): Mapping =>
  answers.reduce(
    (before, answer) => settleQuestion(before, { question: before.undecided[0]!, answer }),
    mapping,
  );

/** @param changed the text of the sheet with something written otherwise */
export async function readBy(
  file: string,
  mapping: Mapping,
  { answersText, changed }: { readonly answersText?: string; readonly changed?: string } = {},
): Promise<CohortForSite> {
  const bytes = changed === undefined ? {} : { bytes: new TextEncoder().encode(changed) };
  const opened = await openMapped({ ...source(file), ...bytes }, { mapping });
  const answers =
    answersText === undefined
      ? {}
      : { answers: { file: "answers.csv", bytes: new TextEncoder().encode(answersText) } };
  return readCohortForSite([opened], { ...options, ...answers });
}
