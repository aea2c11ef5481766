import { useRef, useState } from "preact/hooks";
import type {
  AskView,
  Brought,
  CheckView,
  ColumnsChange,
  ReadView,
  SectionView,
  TaskName,
  Tasks,
} from "../engine/tasks.js";
import { AskStep } from "./ask-step.js";
import { BringStep } from "./bring-step.js";
import { ColumnsStep } from "./columns-step.js";
import { type EngineClient, engineClient, Refused, Stopped } from "./engine-client.js";
import { keepFocus } from "./keep-focus.js";
import { QueriesStep } from "./queries-step.js";
import { ReadStep } from "./read-step.js";
import { ForgetButton } from "./record/forget-button.js";
import { RecordEntrance } from "./record/record-entrance.js";
import { RecordPage } from "./record/record-page.js";
import { useRecord } from "./record/use-record.js";
import { goTo, Step, type StepId, type StepState, steps } from "./step.js";
import { TakeAwayStep } from "./take-away-step.js";

/** What the page knows so far; a change of an earlier step takes away what rests on it. */
interface Known {
  readonly brought: Brought | null;
  readonly checked: CheckView | null;
  readonly asked: AskView | null;
  readonly answer: ReadView | null;
  readonly sections: readonly SectionView[] | null;
}

const nothing: Known = { brought: null, checked: null, asked: null, answer: null, sections: null };

interface Trouble {
  readonly step: StepId;
  readonly message: string;
  readonly isInput: boolean;
}

export type Run = <Name extends TaskName>(
  step: StepId,
  task: Name,
  input: Parameters<Tasks[Name]>[0],
) => Promise<Awaited<ReturnType<Tasks[Name]>> | null>;

export function App() {
  const [known, setKnown] = useState(nothing);
  const [doing, setDoing] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [isRecordOpen, setIsRecordOpen] = useState(false);
  const kept = useRecord();
  const client = useRef<EngineClient | null>(null);
  client.current ??= engineClient((step) => setDoing(step));

  const run: Run = async (step, task, input) => {
    const giveBack = keepFocus();
    setDoing("working");
    setTrouble(null);
    try {
      return await client.current!.run(task, input);
    } catch (error) {
      if (error instanceof Stopped) return null;
      const isInput = error instanceof Refused && error.isInput;
      setTrouble({ step, message: error instanceof Error ? error.message : String(error), isInput });
      return null;
    } finally {
      setDoing(null);
      giveBack();
    }
  };

  const forget = async () => {
    await client.current!.forget();
    kept.forget();
    setKnown(nothing);
    setTrouble(null);
    goTo("bring");
  };

  const check = async () => {
    const checked = await run("queries", "check", undefined as never);
    if (checked === null) return;
    setKnown((before) => ({ ...before, checked, asked: null, answer: null, sections: null }));
    goTo("queries");
  };

  const takeIn = async (brought: Brought | null) => {
    if (brought === null) return;
    setKnown({ ...nothing, brought });
    if (brought.kind === "sheet") goTo("columns");
    else await check();
  };

  const changeColumns = async (change: ColumnsChange) => {
    const columns = await run("columns", "columns", change);
    if (columns !== null) setKnown({ ...nothing, brought: { kind: "sheet", columns } });
  };

  const ask = async (change: Parameters<Tasks["ask"]>[0]) => {
    const asked = await run("ask", "ask", change);
    if (asked !== null) setKnown((before) => ({ ...before, asked, answer: null, sections: null }));
    return asked;
  };

  const read = async () => {
    const answer = await run("read", "read", undefined as never);
    if (answer === null) return;
    setKnown((before) => ({ ...before, answer, sections: null }));
    goTo("read");
  };

  const { brought, checked, asked, answer, sections } = known;
  const stateOf: Readonly<Record<StepId, StepState>> = {
    bring: brought === null ? "open" : "done",
    columns: brought === null ? "ahead" : checked === null ? "open" : "done",
    queries: checked === null ? "ahead" : asked === null ? "open" : "done",
    ask: asked === null ? "ahead" : answer === null ? "open" : "done",
    read: answer === null ? "ahead" : "open",
    "take-away": answer === null ? "ahead" : "open",
  };
  const undone = undoneBy(known);
  const troubleAt = (step: StepId) =>
    trouble?.step === step ? (
      <div class="trouble" role="alert">
        <strong>
          {trouble.isInput
            ? "This cannot be used as it is."
            : "The toolkit itself has failed; your data are not the cause."}
        </strong>
        <pre>{trouble.message}</pre>
      </div>
    ) : null;
  const isBusy = doing !== null;

  return (
    <>
      <a class="skip" href="#bring">
        To the first step
      </a>
      <header class="top">
        <div>
          <p class="kind">pulley-outcomes · workbench</p>
          <h1>How do your patients do after a pulley injury?</h1>
          <p class="promise">
            Everything happens inside this page. It has no connection: nothing is loaded and nothing is sent.
          </p>
        </div>
        {isRecordOpen ? (
          <button type="button" class="quiet" onClick={() => setIsRecordOpen(false)}>
            Back to the questions
          </button>
        ) : (
          <ForgetButton kept={kept} onForget={() => void forget()} />
        )}
      </header>
      {isRecordOpen ? (
        <main>
          <RecordPage
            kept={kept}
            engine={(task, input) => client.current!.run(task, input)}
            onForget={() => void forget()}
            onAsk={async (file) => {
              setIsRecordOpen(false);
              await takeIn(await run("bring", "bring", [file]));
            }}
          />
        </main>
      ) : null}
      <div class="path" hidden={isRecordOpen}>
        <nav aria-label="Steps">
          <ol>
            {steps.map(({ id, title }) => (
              <li key={id} class={stateOf[id]}>
                {stateOf[id] === "ahead" ? <span>{title}</span> : <a href={`#${id}`}>{title}</a>}
              </li>
            ))}
          </ol>
        </nav>
        <main aria-busy={isBusy}>
          <Step id="bring" state={stateOf.bring}>
            <BringStep
              brought={brought}
              isBusy={isBusy}
              onFiles={async (files) => takeIn(await run("bring", "bring", files))}
              onExample={async (scenario) => takeIn(await run("bring", "invent", scenario))}
            />
            <RecordEntrance kept={kept} onOpen={() => setIsRecordOpen(true)} />
            <Undoes what={undone.bring} />
            {troubleAt("bring")}
          </Step>
          <Step id="columns" state={stateOf.columns}>
            {brought === null ? null : (
              <ColumnsStep brought={brought} isBusy={isBusy} onChange={changeColumns} onAgreed={check} />
            )}
            <Undoes what={undone.columns} />
            {troubleAt("columns")}
            {checked === null ? troubleAt("queries") : null}
          </Step>
          <Step id="queries" state={stateOf.queries}>
            {checked === null ? null : (
              <QueriesStep
                checked={checked}
                isBusy={isBusy}
                onSettle={async (given) => {
                  const next = await run("queries", "settle", given);
                  if (next !== null)
                    setKnown((before) => ({
                      ...before,
                      checked: next,
                      asked: null,
                      answer: null,
                      sections: null,
                    }));
                }}
                onDateOrder={async (dateOrder) => {
                  if ((await run("queries", "ask", { dateOrder })) !== null) await check();
                }}
                onDone={async () => {
                  if ((await ask({})) !== null) goTo("ask");
                }}
              />
            )}
            <Undoes what={undone.queries} />
            {troubleAt("queries")}
            {asked === null ? troubleAt("ask") : null}
          </Step>
          <Step id="ask" state={stateOf.ask}>
            {asked === null ? null : <AskStep asked={asked} isBusy={isBusy} onAsk={ask} onRead={read} />}
            <Undoes what={undone.ask} />
            {troubleAt("ask")}
            {answer === null ? troubleAt("read") : null}
          </Step>
          <Step id="read" state={stateOf.read}>
            {answer === null ? null : (
              <ReadStep
                answer={answer}
                sections={sections}
                isBusy={isBusy}
                onWhole={async () => {
                  const drawn = await run("read", "sections", undefined as never);
                  if (drawn !== null) setKnown((before) => ({ ...before, sections: drawn }));
                }}
              />
            )}
            {answer === null ? null : troubleAt("read")}
          </Step>
          <Step id="take-away" state={stateOf["take-away"]}>
            <TakeAwayStep
              isBusy={isBusy}
              talk={answer?.talk ?? []}
              onTake={() => run("take-away", "takeAway", undefined as never)}
              onTalk={(group) => run("take-away", "talk", group)}
            />
            {troubleAt("take-away")}
          </Step>
        </main>
      </div>
      <div class={`doing${isBusy ? "" : " idle"}`} role="status">
        {doing === null ? null : (
          <>
            <span>{doing} …</span>
            <button type="button" onClick={() => void client.current!.stop()}>
              Stop
            </button>
          </>
        )}
      </div>
    </>
  );
}

/** What a change of a step would undo further down, in words. */
const undoneBy = ({ brought, checked, answer }: Known) => ({
  bring: brought === null ? null : "Other data take away everything below.",
  columns:
    checked === null || brought?.kind !== "sheet"
      ? null
      : "A change here takes away your answers to the queries, and the answer.",
  queries: answer === null ? null : "A change here takes the answer away: ask once more.",
  ask: answer === null ? null : "Another question takes the answer away.",
});

const Undoes = ({ what }: { readonly what: string | null }) =>
  what === null ? null : <p class="hint">{what}</p>;
