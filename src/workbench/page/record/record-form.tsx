import { useEffect, useRef, useState } from "preact/hooks";
import {
  type Draft,
  injuryNameOf,
  isChanged,
  runningTreatments,
  withCell,
  withoutPart,
  withPart,
  withRow,
} from "../../engine/record/draft.js";
import { type ClinicRecord, cell, type TableOfInjury } from "../../engine/record/record.js";
import type { DraftFindings, RecordForms } from "../../engine/record/record-tasks.js";
import { Confirm } from "./confirm.js";
import { Part } from "./part.js";

interface FormProps {
  readonly record: ClinicRecord;
  readonly draft: Draft;
  readonly forms: RecordForms;
  readonly check: (draft: Draft) => Promise<DraftFindings | null>;
  readonly onWrite: (draft: Draft) => void;
  readonly onKeep: () => void;
  readonly onLeave: () => void;
}

/** So long after the last letter the checks are asked, in milliseconds. */
const pause = 150;

/** What is being written: a new injury, the next visit, or a row that is corrected; checked while somebody writes. */
export function RecordForm({ record, draft, forms, check, onWrite, onKeep, onLeave }: FormProps) {
  const [findings, setFindings] = useState<DraftFindings | null>(null);
  const [isAsked, setIsAsked] = useState(false);
  const [isLeaving, setIsLeaving] = useState(false);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus(), []);
  useEffect(() => {
    let isCurrent = true;
    const later = setTimeout(() => {
      void check(draft).then((found) => {
        if (isCurrent && found !== null) setFindings(found);
      });
    }, pause);
    return () => {
      isCurrent = false;
      clearTimeout(later);
    };
  }, [draft]);

  const keep = async () => {
    const found = await check(draft);
    if (found !== null) setFindings(found);
    const isSetAside = found !== null && Object.values(found.rows).some((row) => row.isSetAside);
    if (isSetAside && !isAsked) setIsAsked(true);
    else onKeep();
  };
  const isWritten = isChanged(record, draft);
  return (
    <form
      class="record-form"
      aria-labelledby="record-form-title"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <h3 id="record-form-title" ref={title} tabIndex={-1}>
        {titleOf(record, draft)}
      </h3>
      {draft.parts.map((part, i) => (
        <Part
          key={part.key}
          part={part}
          forms={forms}
          found={findings?.rows[part.key] ?? null}
          isAsked={isAsked}
          isNamed={draft.kind === "new-injury" || draft.injury !== null}
          onWrite={(column, text) => onWrite(withCell(record, draft, { key: part.key, column, text }))}
          onTakeOut={
            i === 0 || part.table === "injuries" ? null : () => onWrite(withoutPart(draft, part.key))
          }
        />
      ))}
      <FurtherRows record={record} draft={draft} onWrite={onWrite} />
      <Summary findings={findings} isAsked={isAsked} />
      <p class="go-on">
        <button type="submit" class="main" disabled={!isWritten}>
          {isAsked ? "Keep it as it is" : "Keep in the record"}
        </button>
        <button type="button" onClick={() => (isWritten ? setIsLeaving(true) : onLeave())}>
          Leave without keeping
        </button>
      </p>
      {isLeaving ? (
        <Confirm
          title="Leave what you have written?"
          yes="Leave it"
          onYes={onLeave}
          onNo={() => setIsLeaving(false)}
        >
          <p>What was written in this form goes; the record stays as it was before.</p>
        </Confirm>
      ) : null}
    </form>
  );
}

function titleOf(record: ClinicRecord, draft: Draft): string {
  if (draft.kind === "new-injury") return "A new injury";
  const name = injuryNameOf(record, draft);
  if (draft.kind === "visit") return `Next visit of ${name}`;
  return name === "" ? "Correct a row" : `Correct a row of ${name}`;
}

const rowWords: Readonly<Record<TableOfInjury, string>> = {
  treatments: "A treatment begun",
  imaging: "A distance read",
  visits: "A visit",
};

/** What else happened that day: each makes a row of its own. */
function FurtherRows({ record, draft, onWrite }: Pick<FormProps, "record" | "draft" | "onWrite">) {
  if (draft.kind === "correction") return null;
  const tables: readonly TableOfInjury[] =
    draft.kind === "visit" ? ["treatments", "imaging"] : ["treatments", "imaging", "visits"];
  return (
    <div class="further">
      <h4>What else is there to write?</h4>
      <p>
        {tables.map((table) => (
          <button type="button" key={table} onClick={() => onWrite(withPart(record, draft, table))}>
            {rowWords[table]}
          </button>
        ))}
        {runningTreatments(record, draft).map(({ key, cells }) => (
          <button
            type="button"
            key={key}
            onClick={() => onWrite(withRow(record, draft, { table: "treatments", key }))}
          >
            The end of {cell(cells, "treatment").replaceAll("_", " ")}
            {cell(cells, "start_date") === "" ? "" : `, begun ${cell(cells, "start_date")}`}
          </button>
        ))}
      </p>
    </div>
  );
}

/** How the checks stand, said when it changes. */
function Summary({
  findings,
  isAsked,
}: {
  readonly findings: DraftFindings | null;
  readonly isAsked: boolean;
}) {
  const rows = findings === null ? [] : Object.values(findings.rows);
  const all = rows.flatMap((row) => row.findings);
  const blank = all.filter(({ isBlank }) => isBlank).length;
  const wrong = all.length - blank;
  const words = [
    ...(wrong > 0 ? [`${wrong === 1 ? "One thing is" : `${wrong} things are`} asked about above.`] : []),
    ...(blank > 0
      ? [`${blank === 1 ? "One field is" : `${blank} fields are`} blank that every row needs.`]
      : []),
    ...(isAsked && rows.some((row) => row.isSetAside)
      ? ["You can keep it so: until it is corrected, the row stays in the record and counts in no result."]
      : []),
  ];
  const others = findings?.others ?? [];
  return (
    <>
      <p class="checks" role="status">
        {words.join(" ")}
      </p>
      {others.length === 0 ? null : (
        <details>
          <summary>
            {others.length === 1 ? "One query" : `${others.length} queries`} about other rows of this person
          </summary>
          <ul>
            {others.map(({ where, what, correction }) => (
              <li key={`${where} ${what}`}>
                {where}: {what} {correction}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
