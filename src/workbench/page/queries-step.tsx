import { useId, useState } from "preact/hooks";
import type { AnswerKind } from "../../schema/answers.js";
import type { AnswerGiven, CheckView, QueriesView } from "../engine/tasks.js";

interface QueriesProps {
  readonly checked: CheckView;
  readonly isBusy: boolean;
  readonly onSettle: (given: AnswerGiven) => Promise<void>;
  readonly onDateOrder: (order: DateOrder) => Promise<void>;
  readonly onDone: () => Promise<void>;
}

type DateOrder = NonNullable<CheckView["dateOrder"]>;

const dateOrders: readonly (readonly [DateOrder, string])[] = [
  ["year-first", "2024-03-04 only"],
  ["day-first", "also 4.3.2024 or 04/03/2024: the day first"],
  ["month-first", "also 03/04/2024: the month first"],
];

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

export function QueriesStep({ checked, isBusy, onSettle, onDateOrder, onDone }: QueriesProps) {
  const open = checked.queries.filter(({ isAnswered }) => !isAnswered);
  const answered = checked.queries.filter(({ isAnswered }) => isAnswered);
  return (
    <>
      <ul class="accounts">
        {checked.accounts.map(({ file, read, used, setAside }) => (
          <li key={file}>
            <b>{file}</b>: {read} rows read, {used} used, {setAside} set aside
          </li>
        ))}
      </ul>
      {checked.dateOrder === null ? null : (
        <p>
          <label>
            Dates are written as{" "}
            <select
              disabled={isBusy}
              value={checked.dateOrder}
              onChange={({ currentTarget }) => void onDateOrder(currentTarget.value as DateOrder)}
            >
              {dateOrders.map(([order, words]) => (
                <option key={order} value={order}>
                  {words}
                </option>
              ))}
            </select>
          </label>
        </p>
      )}
      {checked.notices.map((notice) => (
        <p key={notice}>{notice}</p>
      ))}
      {open.length === 0 ? <p>No query is open.</p> : null}
      {open.map((queries) => (
        <Queries key={queries.key} queries={queries} isBusy={isBusy} onSettle={onSettle} />
      ))}
      {answered.length === 0 ? null : (
        <details open>
          <summary>What you have settled</summary>
          <ul>
            {answered.map((queries) => (
              <li key={queries.key}>
                {queries.rows.map(({ where, found }) => `${where}: ${found}`).join("; ")}{" "}
                <b>
                  {answerWords[queries.rows[0]!.answer ?? "stands"]}
                  {queries.rows[0]!.newValue === null ? "" : ` to ${queries.rows[0]!.newValue}`}
                </b>{" "}
                <button
                  type="button"
                  class="quiet"
                  disabled={isBusy}
                  onClick={() => void onSettle({ ids: queries.ids, answer: null, newValue: null })}
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

function Queries({
  queries,
  isBusy,
  onSettle,
}: { readonly queries: QueriesView } & Omit<QueriesProps, "checked" | "onDateOrder" | "onDone">) {
  const [value, setValue] = useState("");
  const title = useId();
  const many = queries.ids.length;
  const settle = (answer: AnswerKind) =>
    void onSettle({ ids: queries.ids, answer, newValue: answer === "change" ? value : null });
  return (
    <article class={`queries ${queries.severity}`} aria-labelledby={title}>
      <p class="severity">{severityWords[queries.severity]}</p>
      <h3 id={title}>
        {many === 1
          ? `${queries.rows[0]!.where}: ${queries.rows[0]!.found}`
          : `${many} places: ${queries.rows[0]!.found}`}{" "}
        {queries.expected}.
      </h3>
      <p>
        {queries.correction} {queries.consequence}
      </p>
      {many === 1 ? null : (
        <details>
          <summary>Where</summary>
          <ul>
            {queries.rows.map(({ id, where, found }) => (
              <li key={id}>
                {where}: {found}
              </li>
            ))}
          </ul>
          {many > queries.rows.length ? <p>And {many - queries.rows.length} more.</p> : null}
        </details>
      )}
      <div class="settle">
        <button type="button" disabled={isBusy} onClick={() => settle("stands")}>
          {many === 1 ? "It stands" : "They stand"}
        </button>
        {queries.column === null || !queries.isAboutRows ? null : (
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
        {queries.isAboutRows ? (
          <button type="button" disabled={isBusy} onClick={() => settle("leave-out")}>
            Leave {many === 1 ? "the row" : `the ${many} rows`} out
          </button>
        ) : null}
      </div>
    </article>
  );
}
