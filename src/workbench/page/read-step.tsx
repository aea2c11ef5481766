import { cautionLine, syntheticLine } from "../../words/cautions.js";
import type { ReadView, SectionView } from "../engine/tasks.js";
import { Curves } from "./curves.js";
import { Paper } from "./paper.js";
import { Worded } from "./term.js";

interface ReadProps {
  readonly answer: ReadView;
  /** The sections of the report; null until they were asked for. */
  readonly sections: readonly SectionView[] | null;
  readonly isBusy: boolean;
  readonly onWhole: () => void;
}

/** The answer: the curve to walk along, and the sections of the report, drawn when they are opened. */
export function ReadStep({ answer, sections, isBusy, onWhole }: ReadProps) {
  const told = new Set<string>();
  return (
    <>
      {answer.isSynthetic ? <p class="synthetic">{syntheticLine}</p> : null}
      <div class="plain">
        {answer.paragraphs.map((paragraph) => (
          <p key={paragraph}>
            <Worded text={paragraph} told={told} />
          </p>
        ))}
      </div>
      <p class="caution">{cautionLine}</p>
      <Curves families={answer.families} horizon={answer.horizonDays} isSynthetic={answer.isSynthetic} />
      <details
        class="whole"
        onToggle={({ currentTarget }) => {
          if (currentTarget.open && sections === null && !isBusy) onWhole();
        }}
      >
        <summary>The whole report</summary>
        {sections === null ? (
          <button type="button" disabled={isBusy} onClick={onWhole}>
            Draw the report
          </button>
        ) : (
          <Paper sections={sections} />
        )}
      </details>
    </>
  );
}
