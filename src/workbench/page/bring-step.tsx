import examples from "workbench:examples";
import { useState } from "preact/hooks";
import type { Brought, NamedBytes } from "../engine/tasks.js";
import { readAll } from "./read-files.js";

const exampleWords: Readonly<Record<string, string>> = {
  "one-clinic.yaml": "one clinic, 60 injuries",
  "three-sites.yaml": "three sites, 240 injuries",
  "registry.yaml": "a registry, 250 injuries",
};

/** So much of a file is taken at most, bytes: more than this a page cannot hold together with what it computes. */
const largest = 200_000_000;

interface BringProps {
  readonly brought: Brought | null;
  readonly isBusy: boolean;
  readonly onFiles: (files: readonly NamedBytes[]) => Promise<void>;
  readonly onExample: (scenario: { readonly name: string; readonly text: string }) => Promise<void>;
}

export function BringStep({ brought, isBusy, onFiles, onExample }: BringProps) {
  const [isOver, setIsOver] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);
  const take = async (list: FileList | null) => {
    const files = [...(list ?? [])];
    if (files.length === 0) return;
    const tooLarge = files.find(({ size }) => size > largest);
    setRefusal(
      tooLarge === undefined
        ? null
        : `${tooLarge.name} is larger than ${largest / 1_000_000} MB. Read it with the command line instead.`,
    );
    if (tooLarge !== undefined) return;
    await onFiles(await readAll(files));
  };
  return (
    <>
      <label
        class={`drop${isOver ? " over" : ""}`}
        onDragOver={(event) => {
          event.preventDefault();
          setIsOver(true);
        }}
        onDragLeave={() => setIsOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setIsOver(false);
          void take(event.dataTransfer?.files ?? null);
        }}
      >
        <span class="drop-words">
          <strong>Drop your spreadsheet here,</strong> or choose it: a CSV file or a workbook (.xlsx), in
          whatever columns you have. Several tables, or a study file with its tables, are dropped together.
        </span>
        <input
          type="file"
          multiple
          accept=".csv,.tsv,.txt,.xlsx,.yaml,.yml,.key"
          disabled={isBusy}
          onChange={({ currentTarget }) => {
            const { files } = currentTarget;
            void take(files).then(() => {
              currentTarget.value = "";
            });
          }}
        />
      </label>
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
      {refusal === null ? null : (
        <p class="trouble" role="alert">
          {refusal}
        </p>
      )}
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
