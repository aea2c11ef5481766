import type { KeptWork } from "./kept-work.js";
import { type StepId, steps } from "./step.js";
import type { WorkInBrowser } from "./use-kept-work.js";

interface KeepingProps {
  readonly work: WorkInBrowser;
  readonly hasData: boolean;
  readonly isBusy: boolean;
  readonly onGoOn: (work: KeptWork) => Promise<void>;
  readonly onForget: () => void;
}

/** Whether this browser keeps the data and the answers until the next opening: asked first, and said when it cannot. */
export function KeepingWork({ work, hasData, isBusy, onGoOn, onForget }: KeepingProps) {
  const { offered, keeping } = work;
  if (offered !== null && !hasData)
    return (
      <section class="keeping" aria-label="Kept in this browser">
        <p>
          <strong>This browser has kept your work from before:</strong> {offered.files.join(", ")}, up to the
          step "{titleOf(offered.reached)}".
        </p>
        <p class="go-on">
          <button type="button" class="main" disabled={isBusy} onClick={() => void onGoOn(offered)}>
            Go on with it
          </button>
          <button type="button" disabled={isBusy} onClick={onForget}>
            Forget it
          </button>
        </p>
      </section>
    );
  if (!hasData) return null;
  if (keeping === "kept")
    return (
      <p class="hint">
        Your data and answers are also kept in this browser, until you press "Forget everything". They are
        offered again after a reload or a crash.
      </p>
    );
  if (keeping === "failed")
    return (
      <p class="trouble" role="alert">
        This browser cannot keep your work: its storage is full or forbidden. Nothing is lost as long as this
        page stays open; save the archive at the last step before you close it.
      </p>
    );
  return (
    <details class="keeping">
      <summary>Keep my data and answers in this browser, in case it closes</summary>
      <p>
        Without this, everything is gone when the page is closed or reloaded. With it, the files that you
        brought and what you answered stay in this browser on this computer, readable by whoever uses the
        browser and by other pages opened from its disk, until you press "Forget everything". Do not say yes
        on a computer that others use.
      </p>
      <p>
        <button type="button" disabled={isBusy} onClick={work.startKeeping}>
          Yes, keep them in this browser
        </button>
      </p>
    </details>
  );
}

const titleOf = (id: StepId): string => steps.find((step) => step.id === id)!.title;
