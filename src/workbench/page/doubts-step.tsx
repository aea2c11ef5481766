import { useState } from "preact/hooks";
import type { AnswerKind } from "../../schema/answers.js";
import type { AnswerGiven, CheckView, DoubtsView } from "../engine/tasks.js";

interface DoubtsProps {
  readonly checked: CheckView;
  readonly isBusy: boolean;
  readonly onSettle: (given: AnswerGiven) => Promise<void>;
  readonly onDone: () => Promise<void>;
}

const answerWords: Readonly<Record<AnswerKind, string>> = {
  stands: "stands as it is",
  change: "changed",
  "leave-out": "left out",
};
const severityWords = {
  stop: "Nothing is read until this is settled",
  "set-aside": "These rows are set aside for now",
  "look-at": "These rows are used; have a look",
} as const;

export function DoubtsStep({ checked, isBusy, onSettle, onDone }: DoubtsProps) {
  const open = checked.doubts.filter(({ isAnswered }) => !isAnswered);
  const answered = checked.doubts.filter(({ isAnswered }) => isAnswered);
  return (
    <>
      <ul class="accounts">
        {checked.accounts.map(({ file, read, used, setAside }) => (
          <li key={file}>
            <b>{file}</b>: {read} rows read, {used} used, {setAside} set aside
          </li>
        ))}
      </ul>
      {checked.notices.map((notice) => (
        <p key={notice}>{notice}</p>
      ))}
      {open.length === 0 ? <p>There is no doubt left.</p> : null}
      {open.map((doubts) => (
        <Doubts key={doubts.key} doubts={doubts} isBusy={isBusy} onSettle={onSettle} />
      ))}
      {answered.length === 0 ? null : (
        <details open>
          <summary>What you have settled</summary>
          <ul>
            {answered.map((doubts) => (
              <li key={doubts.key}>
                {doubts.rows.map(({ where, found }) => `${where}: ${found}`).join("; ")}{" "}
                <b>
                  {answerWords[doubts.rows[0]!.answer ?? "stands"]}
                  {doubts.rows[0]!.newValue === null ? "" : ` to ${doubts.rows[0]!.newValue}`}
                </b>{" "}
                <button
                  type="button"
                  class="quiet"
                  disabled={isBusy}
                  onClick={() => void onSettle({ ids: doubts.ids, answer: null, newValue: null })}
                >
                  Take back
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
      <p class="go-on">
        <button type="button" class="main" disabled={isBusy} onClick={() => void onDone()}>
          Go on to the question
        </button>
        {open.length === 0 ? null : (
          <span> What is not settled stays as it is told above, and the report lists it.</span>
        )}
      </p>
    </>
  );
}

function Doubts({
  doubts,
  isBusy,
  onSettle,
}: { readonly doubts: DoubtsView } & Omit<DoubtsProps, "checked" | "onDone">) {
  const [value, setValue] = useState("");
  const many = doubts.ids.length;
  const settle = (answer: AnswerKind) =>
    void onSettle({ ids: doubts.ids, answer, newValue: answer === "change" ? value : null });
  return (
    <article class={`doubts ${doubts.severity}`}>
      <p class="severity">{severityWords[doubts.severity]}</p>
      <h3>
        {many === 1
          ? `${doubts.rows[0]!.where}: ${doubts.rows[0]!.found}`
          : `${many} places: ${doubts.rows[0]!.found}`}{" "}
        {doubts.expected}.
      </h3>
      <p>
        {doubts.correction} {doubts.consequence}
      </p>
      {many === 1 ? null : (
        <details>
          <summary>Where</summary>
          <ul>
            {doubts.rows.map(({ id, where, found }) => (
              <li key={id}>
                {where}: {found}
              </li>
            ))}
          </ul>
          {many > doubts.rows.length ? <p>And {many - doubts.rows.length} more.</p> : null}
        </details>
      )}
      <div class="settle">
        <button type="button" disabled={isBusy} onClick={() => settle("stands")}>
          {many === 1 ? "It stands" : "They stand"}
        </button>
        {doubts.column === null || !doubts.isAboutRows ? null : (
          <span class="change">
            <label>
              Should read{" "}
              <input
                type="text"
                value={value}
                onInput={({ currentTarget }) => setValue(currentTarget.value)}
              />
            </label>
            <button type="button" disabled={isBusy || value.trim() === ""} onClick={() => settle("change")}>
              Change {many === 1 ? "it" : `all ${many}`}
            </button>
          </span>
        )}
        {doubts.isAboutRows ? (
          <button type="button" disabled={isBusy} onClick={() => settle("leave-out")}>
            Leave {many === 1 ? "the row" : `the ${many} rows`} out
          </button>
        ) : null}
      </div>
    </article>
  );
}
