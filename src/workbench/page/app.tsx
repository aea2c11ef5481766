import { useState } from "preact/hooks";
import type { NamedBytes } from "../engine/tasks.js";
import { AskStep } from "./ask-step.js";
import { BringStep } from "./bring-step.js";
import { ColumnsStep } from "./columns-step.js";
import { KeepingWork } from "./keeping-work.js";
import { PoolEntrance } from "./pooling/pool-entrance.js";
import { PoolPage } from "./pooling/pool-page.js";
import { usePool } from "./pooling/use-pool.js";
import { QueriesStep } from "./queries-step.js";
import { ReadStep } from "./read-step.js";
import { ForgetButton } from "./record/forget-button.js";
import { RecordEntrance } from "./record/record-entrance.js";
import { RecordPage } from "./record/record-page.js";
import { useRecord } from "./record/use-record.js";
import { goTo, Step, type StepId, type StepState, steps } from "./step.js";
import { TakeAwayStep } from "./take-away-step.js";
import { TroubleWords } from "./trouble-words.js";
import { type Known, usePath } from "./use-path.js";

export function App() {
  const path = usePath();
  const { known, doing, trouble, work } = path;
  const [open, setOpen] = useState<"path" | "record" | "pool">("path");
  const kept = useRecord();
  const pool = usePool(path.pooling);
  const openPool = () => {
    setOpen("pool");
    requestAnimationFrame(() => document.getElementById("pool-title")?.focus());
  };
  /** Summaries alone are no data of a clinic: they are to be pooled. */
  const takeIn = async (files: readonly NamedBytes[]) => {
    if (!files.every(({ name }) => /\.json$/i.test(name))) return path.bring(files);
    openPool();
    await pool.add(files);
  };
  const forget = async () => {
    kept.forget();
    pool.forget();
    await path.forget();
  };
  const { brought, checked, asked, answer, sections } = known;
  const stateOf = statesOf(known);
  const undone = undoneBy(known);
  const troubleAt = (step: StepId | "pool") =>
    trouble?.step === step ? <TroubleWords {...trouble} /> : null;
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
        {open !== "path" ? (
          <button type="button" class="quiet" onClick={() => setOpen("path")}>
            Back to the questions
          </button>
        ) : (
          <ForgetButton kept={kept} onForget={() => void forget()} />
        )}
      </header>
      {open === "record" ? (
        <main>
          <RecordPage
            kept={kept}
            engine={path.runAside}
            onForget={() => void forget()}
            onAsk={async (file) => {
              setOpen("path");
              await path.bring([file]);
            }}
          />
        </main>
      ) : null}
      {open === "pool" ? (
        <main aria-busy={isBusy}>
          <PoolPage pool={pool} isBusy={isBusy} trouble={troubleAt("pool")} />
        </main>
      ) : null}
      <div class="path" hidden={open !== "path"}>
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
            <BringStep brought={brought} isBusy={isBusy} onFiles={takeIn} onExample={path.invent} />
            <KeepingWork
              work={work}
              hasData={brought !== null}
              isBusy={isBusy}
              onGoOn={path.goOn}
              onForget={() => void work.forget()}
            />
            <RecordEntrance kept={kept} onOpen={() => setOpen("record")} />
            <PoolEntrance isBegun={pool.files.length > 0} onOpen={openPool} />
            <Undoes what={undone.bring} />
            {troubleAt("bring")}
          </Step>
          <Step id="columns" state={stateOf.columns}>
            {brought === null ? null : (
              <ColumnsStep
                brought={brought}
                isBusy={isBusy}
                onChange={path.changeColumns}
                onAgreed={path.check}
              />
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
                onSettle={path.settle}
                onDateOrder={path.orderDates}
                onDone={async () => {
                  if ((await path.ask({})) !== null) goTo("ask");
                }}
              />
            )}
            <Undoes what={undone.queries} />
            {troubleAt("queries")}
            {asked === null ? troubleAt("ask") : null}
          </Step>
          <Step id="ask" state={stateOf.ask}>
            {asked === null ? null : (
              <AskStep
                asked={asked}
                isBusy={isBusy}
                onAsk={path.ask}
                onAgree={path.agree}
                onRead={path.read}
              />
            )}
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
                onWhole={() => void path.drawWhole()}
              />
            )}
            {answer === null ? null : troubleAt("read")}
          </Step>
          <Step id="take-away" state={stateOf["take-away"]}>
            <TakeAwayStep
              isBusy={isBusy}
              talk={answer?.talk ?? []}
              onTake={path.takeAway}
              onTalk={path.talk}
              sites={answer?.sites ?? []}
              onContribute={path.contribute}
            />
            {troubleAt("take-away")}
          </Step>
        </main>
      </div>
      <div class={`doing${isBusy ? "" : " idle"}`} role="status">
        {doing === null ? null : (
          <>
            <span>{doing} …</span>
            <button type="button" onClick={() => void path.stop()}>
              Stop
            </button>
          </>
        )}
      </div>
    </>
  );
}

/** How far each step is, by what is known. */
const statesOf = ({ brought, checked, asked, answer }: Known): Readonly<Record<StepId, StepState>> => ({
  bring: brought === null ? "open" : "done",
  columns: brought === null ? "ahead" : checked === null ? "open" : "done",
  queries: checked === null ? "ahead" : asked === null ? "open" : "done",
  ask: asked === null ? "ahead" : answer === null ? "open" : "done",
  read: answer === null ? "ahead" : "open",
  "take-away": answer === null ? "ahead" : "open",
});

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
