import examples from "workbench:examples";
import type { Brought, NamedBytes } from "../engine/tasks.js";
import { DropArea } from "./drop-area.js";

const exampleWords: Readonly<Record<string, string>> = {
  "one-clinic.yaml": "one clinic, 60 injuries",
  "three-sites.yaml": "three sites, 240 injuries",
  "registry.yaml": "a registry, 250 injuries",
};

interface BringProps {
  readonly brought: Brought | null;
  readonly isBusy: boolean;
  readonly onFiles: (files: readonly NamedBytes[]) => Promise<void>;
  readonly onExample: (scenario: { readonly name: string; readonly text: string }) => Promise<void>;
}

export function BringStep({ brought, isBusy, onFiles, onExample }: BringProps) {
  return (
    <>
      <DropArea accept=".csv,.tsv,.txt,.xlsx,.yaml,.yml,.key,.json" isBusy={isBusy} onFiles={onFiles}>
        <strong>Drop your spreadsheet here,</strong> or choose it: a CSV file or a workbook (.xlsx), in
        whatever columns you have. Several tables, or a study file with its tables, are dropped together.
      </DropArea>
      <p class="or">
        Or try it with invented data:{" "}
        {examples.map((scenario) => (
          <button
            type="button"
            class="chip"
            key={scenario.name}
            disabled={isBusy}
            onClick={() => void onExample(scenario)}
          >
            {exampleWords[scenario.name] ?? scenario.name}
          </button>
        ))}
      </p>
      {brought === null ? null : <p class="found">{foundWords(brought)}</p>}
    </>
  );
}

function foundWords(brought: Brought): string {
  if (brought.kind === "sheet")
    return `${brought.columns.file}: ${brought.columns.records} rows in columns of your own.`;
  if (brought.kind === "tables")
    return brought.tables
      .map(({ table, file, rows }) => `${file}: ${rows} rows, read as ${table}.`)
      .join(" ");
  return `${brought.synthetic ? "Invented data: " : ""}a study file with ${brought.files.join(", ")}.`;
}
