import { counted } from "../../../schema/counted.js";
import type { RecordInPage } from "./use-record.js";

/** Whether this browser keeps what is written: asked first, and said when it cannot. */
export function KeepingDrafts({ kept }: { readonly kept: RecordInPage }) {
  const { offered, keeping } = kept;
  if (offered !== null)
    return (
      <section class="keeping" aria-label="Kept in this browser">
        <p>
          <strong>This browser has kept a record from before:</strong>{" "}
          {counted(offered.record.rows.injuries.length, "injury", "injuries")}
          {offered.changes === 0
            ? ", all of it in your file"
            : `, with ${offered.changes === 1 ? "one change" : `${offered.changes} changes`} not in your file yet`}
          {offered.draft === null ? "." : ", and a form that was begun."}
        </p>
        <p class="go-on">
          <button type="button" class="main" onClick={kept.takeOffered}>
            Go on with it
          </button>
          <button type="button" onClick={kept.forget}>
            Forget it
          </button>
        </p>
      </section>
    );
  if (keeping === "kept")
    return (
      <p class="hint">
        What you write is also kept in this browser, until you press "Forget everything". It is offered again
        after a reload or a crash.
      </p>
    );
  if (keeping === "not-asked")
    return (
      <details class="keeping">
        <summary>Keep what I write in this browser too, in case it closes</summary>
        <p>
          Without this, what is not in your file yet is gone when the page is closed or reloaded. With it, the
          record stays in this browser on this computer, readable by whoever uses the browser and by other
          pages opened from its disk, until you press "Forget everything". Do not say yes on a computer that
          others use.
        </p>
        <p>
          <button type="button" onClick={kept.startKeeping}>
            Yes, keep it in this browser
          </button>
        </p>
      </details>
    );
  return (
    <div class="trouble" role="alert">
      <strong>
        {keeping === "failed"
          ? "This browser cannot keep what you write: its storage is full or forbidden."
          : "Another window of the workbench keeps a record in this browser, so this one no longer does."}
      </strong>
      <p>
        Nothing is lost as long as this page stays open. Save the file now.{" "}
        {keeping === "failed" ? (
          <button type="button" onClick={kept.startKeeping}>
            Try again
          </button>
        ) : null}
      </p>
    </div>
  );
}
