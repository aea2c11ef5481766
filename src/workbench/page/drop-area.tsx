import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { NamedBytes } from "../engine/tasks.js";
import { readAll } from "./read-files.js";

/** So much of a file is taken at most, bytes: more than this a page cannot hold together with what it computes. */
const largest = 200_000_000;

interface DropProps {
  /** Endings of the files that can be chosen. */
  readonly accept: string;
  readonly isBusy: boolean;
  readonly onFiles: (files: readonly NamedBytes[]) => Promise<void>;
  readonly children: ComponentChildren;
}

/** Where files are dropped or chosen. */
export function DropArea({ accept, isBusy, onFiles, children }: DropProps) {
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
        <span class="drop-words">{children}</span>
        <input
          type="file"
          multiple
          accept={accept}
          disabled={isBusy}
          onChange={({ currentTarget }) => {
            const { files } = currentTarget;
            void take(files).then(() => {
              currentTarget.value = "";
            });
          }}
        />
      </label>
      {refusal === null ? null : (
        <p class="trouble" role="alert">
          {refusal}
        </p>
      )}
    </>
  );
}
