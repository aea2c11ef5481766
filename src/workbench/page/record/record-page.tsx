import { useEffect, useState } from "preact/hooks";
import { correction, type Draft, injuryNameOf, newInjury, nextVisit } from "../../engine/record/draft.js";
import type { RecordForms, RecordView } from "../../engine/record/record-tasks.js";
import type { NamedBytes } from "../../engine/tasks.js";
import { Confirm } from "./confirm.js";
import type { Engine } from "./engine.js";
import { InjuryList } from "./injury-list.js";
import { KeepingDrafts } from "./keeping-drafts.js";
import { RecordBar } from "./record-bar.js";
import { RecordForm } from "./record-form.js";
import type { RecordInPage } from "./use-record.js";
import "./record.css";

interface PageProps {
  readonly kept: RecordInPage;
  readonly engine: Engine;
  readonly onAsk: (file: NamedBytes) => void;
  readonly onForget: () => void;
}

interface Asked {
  readonly title: string;
  readonly yes: string;
  readonly does: () => void;
}

/** The record that a clinic keeps as it treats. */
export function RecordPage({ kept, engine, onAsk, onForget }: PageProps) {
  const { record, draft } = kept;
  const [forms, setForms] = useState<RecordForms | null>(null);
  const [view, setView] = useState<RecordView | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [said, setSaid] = useState("");
  const [asked, setAsked] = useState<Asked | null>(null);

  const run: <T>(work: () => Promise<T>) => Promise<T | null> = async (work) => {
    try {
      return await work();
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
      return null;
    }
  };
  useEffect(() => void run(() => engine("recordForms", undefined as never)).then(setForms), []);
  useEffect(() => {
    let isCurrent = true;
    void run(() => engine("recordView", record)).then((seen) => {
      if (isCurrent && seen !== null) setView(seen);
    });
    return () => {
      isCurrent = false;
    };
  }, [record]);

  const begin = (next: Draft) => {
    setSaid("");
    kept.write(next);
  };
  const back = (words: string) => {
    setSaid(words);
    requestAnimationFrame(() => document.getElementById("record-title")?.focus());
  };

  return (
    <section class="record" aria-labelledby="record-title">
      <h2 id="record-title" tabIndex={-1}>
        A record as you treat
      </h2>
      <p>
        One file that you keep: a workbook with a sheet each for injuries, treatments, distances and visits.
        The command line reads it as it is.
      </p>
      <RecordBar
        kept={kept}
        engine={engine}
        run={run}
        onTrouble={setTrouble}
        onSaid={setSaid}
        onForget={onForget}
      />
      <p role="status" class="said">
        {said}
        {kept.removed.length === 0 || draft !== null ? null : (
          <>
            {" "}
            <button
              type="button"
              onClick={() => {
                kept.putBack();
                setSaid("Put back where it stood.");
              }}
            >
              Put back what was taken out
            </button>
          </>
        )}
      </p>
      {trouble === null ? null : (
        <div class="trouble" role="alert">
          <strong>This did not work. Nothing that you have written is lost.</strong>
          <pre>{trouble}</pre>
          <button type="button" onClick={() => setTrouble(null)}>
            Close this message
          </button>
        </div>
      )}
      <KeepingDrafts kept={kept} />
      {forms === null || draft === null ? null : (
        <RecordForm
          key={draft.parts[0]!.key}
          record={record}
          draft={draft}
          forms={forms}
          check={(now) => run(() => engine("recordCheck", { record, draft: now }))}
          onWrite={kept.write}
          onKeep={() => {
            kept.keepDraft();
            back(`Kept in the record: ${injuryNameOf(record, draft)}.`);
          }}
          onLeave={() => {
            kept.write(null);
            back("The record is as it was before.");
          }}
        />
      )}
      {draft !== null ? null : (
        <>
          <p class="go-on">
            <button type="button" class="main" onClick={() => begin(newInjury(record))}>
              New injury
            </button>
            <button
              type="button"
              disabled={record.rows.injuries.length === 0}
              onClick={() =>
                void run(() => engine("recordFile", { record, name: kept.name })).then((file) => {
                  if (file !== null) onAsk(file);
                })
              }
            >
              Ask these data a question
            </button>
          </p>
          {view === null || record.rows.injuries.length === 0 ? null : (
            <InjuryList
              view={view}
              onVisit={(key) => begin(nextVisit(record, key))}
              onCorrect={(row) => begin(correction(record, row))}
              onTakeOut={({ what, ...row }) =>
                setAsked({
                  title: `Take ${what} out of the record?`,
                  yes: "Take it out",
                  does: () => {
                    kept.takeOut(row);
                    setSaid(`Taken out: ${what}.`);
                  },
                })
              }
            />
          )}
        </>
      )}
      {asked === null ? null : (
        <Confirm
          title={asked.title}
          yes={asked.yes}
          onNo={() => setAsked(null)}
          onYes={() => {
            asked.does();
            setAsked(null);
          }}
        />
      )}
    </section>
  );
}
