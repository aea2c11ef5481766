import { useState } from "preact/hooks";
import type { NamedBytes } from "../../engine/tasks.js";
import { readFile } from "../read-files.js";

interface SharedQuestionProps {
  readonly isBusy: boolean;
  readonly onAgree: (file: NamedBytes) => Promise<unknown>;
}

/** For a site of a study of several: the question as all of them ask it. */
export function SharedQuestion({ isBusy, onAgree }: SharedQuestionProps) {
  const [taken, setTaken] = useState<string | null>(null);
  return (
    <details class="shared-question">
      <summary>Your site takes part in a study of several sites</summary>
      <p>
        All its sites must ask the same. Choose the study file that they share: the question, the groups, the
        weeks and everything else that is to be alike are taken from it. Your data stay as they are.
      </p>
      <label>
        The shared study file (.yaml){" "}
        <input
          type="file"
          accept=".yaml,.yml"
          disabled={isBusy}
          onChange={async ({ currentTarget }) => {
            const file = currentTarget.files?.[0];
            if (file === undefined) return;
            setTaken((await onAgree(await readFile(file))) === null ? null : file.name);
            currentTarget.value = "";
          }}
        />
      </label>
      <p role="status" class="found">
        {taken === null
          ? null
          : `The question above was taken from ${taken}. A change to it makes it another question.`}
      </p>
    </details>
  );
}
