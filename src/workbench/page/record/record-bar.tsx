import { useRef, useState } from "preact/hooks";
import type { NamedBytes } from "../../engine/tasks.js";
import { readAll } from "../read-files.js";
import { saveFile } from "../save-file.js";
import { Confirm } from "./confirm.js";
import type { Engine } from "./engine.js";
import { ForgetButton } from "./forget-button.js";
import {
  canWriteFiles,
  isChangedElsewhere,
  type OpenFile,
  pickPlace,
  pickRecord,
  writeTo,
} from "./record-files.js";
import type { RecordInPage } from "./use-record.js";

interface BarProps {
  readonly kept: RecordInPage;
  readonly engine: Engine;
  readonly run: <T>(work: () => Promise<T>) => Promise<T | null>;
  readonly onTrouble: (message: string | null) => void;
  readonly onSaid: (words: string) => void;
  readonly onForget: () => void;
}

function fileState({ changes, isEmpty, draft }: RecordInPage): string {
  const form = draft === null ? "" : "; the form below is not kept yet";
  if (changes > 0)
    return `${changes === 1 ? "one change is" : `${changes} changes are`} not in the file yet${form}`;
  return `${isEmpty ? "holds nothing yet" : "all changes are in the file"}${form}`;
}

const withoutEnding = (name: string): string => name.replace(/\.[^.]*$/, "");

/** How the record stands to its file, and what brings them together: always in sight. */
export function RecordBar({ kept, engine, run, onTrouble, onSaid, onForget }: BarProps) {
  const { changes, file, setFile } = kept;
  const [handedOut, setHandedOut] = useState<number | null>(null);
  const [opening, setOpening] = useState<(() => void) | null>(null);
  const [isElsewhere, setIsElsewhere] = useState(false);
  const chooser = useRef<HTMLInputElement>(null);

  const bytesNow = () => engine("recordFile", { record: kept.record, name: kept.name });
  const write = (to: OpenFile) =>
    run(async () => {
      const count = kept.changes;
      const { bytes } = await bytesNow();
      setFile(await writeTo(to, bytes));
      kept.saved(count);
      kept.rename(withoutEnding(to.handle.name));
      onTrouble(null);
      onSaid(`Saved to ${to.handle.name}.`);
    });
  const saveElsewhere = () =>
    run(async () => {
      const place = await pickPlace((await bytesNow()).name);
      if (place !== null) await write(place);
    });
  const download = () =>
    run(async () => {
      const made = await bytesNow();
      saveFile(made);
      setHandedOut(kept.changes);
      onSaid(`${made.name} was handed to the browser, which puts it into its folder for downloads.`);
    });
  const save = async () => {
    if (!canWriteFiles()) return download();
    if (file === null) return saveElsewhere();
    if ((await run(() => isChangedElsewhere(file))) === true) return setIsElsewhere(true);
    return write(file);
  };
  const take = (files: readonly NamedBytes[], of: OpenFile | null) =>
    run(async () => {
      const record = await engine("recordOpen", files);
      kept.open(record, files.length === 1 ? withoutEnding(files[0]!.name) : "record");
      setFile(of);
      setHandedOut(null);
      onTrouble(null);
      onSaid(`Opened: ${files.map(({ name }) => name).join(", ")}.`);
    });
  const choose = () => {
    if (!canWriteFiles()) return chooser.current?.click();
    void run(pickRecord).then((picked) => {
      if (picked !== null) void take([picked.bytes], picked.file);
    });
  };
  return (
    <>
      <div class="record-bar">
        <p class="file-state" role="status">
          <strong>{file?.handle.name ?? `${kept.name}.xlsx`}</strong> {fileState(kept)}
        </p>
        <p class="does">
          <button
            type="button"
            class={changes > 0 ? "main" : ""}
            disabled={kept.isEmpty}
            onClick={() => void save()}
          >
            Save the file
          </button>
          {canWriteFiles() && file !== null ? (
            <button type="button" onClick={() => void saveElsewhere()}>
              Save under another name
            </button>
          ) : null}
          <ForgetButton kept={kept} onForget={onForget} />
        </p>
        {handedOut === null || changes === 0 ? null : (
          <p class="handed-out">
            Is the file in the folder for downloads? Then put it in the place of the one before.{" "}
            <button
              type="button"
              onClick={() => {
                kept.saved(handedOut);
                setHandedOut(null);
                onSaid("All changes are in the file.");
              }}
            >
              It is there
            </button>
          </p>
        )}
      </div>
      {kept.draft !== null ? null : (
        <p class="does">
          <button
            type="button"
            class="quiet"
            onClick={() => (changes > 0 ? setOpening(() => choose) : choose())}
          >
            Open a record
          </button>
          <button
            type="button"
            class="quiet"
            disabled={kept.isEmpty}
            onClick={() =>
              void run(async () => {
                const [study] = await engine("recordStudy", { record: kept.record, name: kept.name });
                saveFile(study!);
              })
            }
          >
            Study file for the command line
          </button>
        </p>
      )}
      <input
        ref={chooser}
        class="unseen"
        type="file"
        multiple
        tabIndex={-1}
        aria-label="File of a record"
        accept=".xlsx,.csv"
        onChange={({ currentTarget }) => {
          void readAll(currentTarget.files ?? [])
            .then((files) => (files.length === 0 ? null : take(files, null)))
            .then(() => {
              currentTarget.value = "";
            });
        }}
      />
      {opening === null ? null : (
        <Confirm
          title="Open another record?"
          yes="Open another"
          onNo={() => setOpening(null)}
          onYes={() => {
            setOpening(null);
            opening();
          }}
        >
          <p>Changes that are not in the file yet would be gone.</p>
        </Confirm>
      )}
      {isElsewhere ? (
        <Confirm
          title="The file was changed elsewhere since it was opened here."
          yes="Write over it"
          onNo={() => setIsElsewhere(false)}
          onYes={() => {
            setIsElsewhere(false);
            if (file !== null) void write(file);
          }}
        >
          <p>
            To keep both, leave it as it is and save under another name. Writing over it takes away what was
            changed elsewhere.
          </p>
        </Confirm>
      ) : null}
    </>
  );
}
