import { useState } from "preact/hooks";
import { Confirm } from "./confirm.js";
import type { RecordInPage } from "./use-record.js";

/** Forgets everything; asks first where something of a record stands in no file. */
export function ForgetButton({
  kept,
  onForget,
}: {
  readonly kept: RecordInPage;
  readonly onForget: () => void;
}) {
  const [isAsking, setIsAsking] = useState(false);
  const changes = kept.changes + (kept.offered?.changes ?? 0);
  const isForm = kept.draft !== null || (kept.offered?.draft ?? null) !== null;
  return (
    <>
      <button
        type="button"
        class="forget"
        onClick={() => (changes > 0 || isForm ? setIsAsking(true) : onForget())}
      >
        Forget everything
      </button>
      {isAsking ? (
        <Confirm
          title="Forget everything?"
          yes="Forget it all"
          onNo={() => setIsAsking(false)}
          onYes={() => {
            setIsAsking(false);
            onForget();
          }}
        >
          <p>
            {changes === 0
              ? "A form of the record that was begun would be gone."
              : `Of the record, ${changes === 1 ? "one change is" : `${changes} changes are`} in no file yet, and would be gone.`}
          </p>
        </Confirm>
      ) : null}
    </>
  );
}
