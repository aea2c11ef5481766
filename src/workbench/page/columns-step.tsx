import { useState } from "preact/hooks";
import type { Brought, ColumnsChange, ColumnsView, FieldView } from "../engine/tasks.js";
import { ScrollBox } from "./scroll-box.js";

interface ColumnsProps {
  readonly brought: Brought;
  readonly isBusy: boolean;
  readonly onChange: (change: ColumnsChange) => Promise<void>;
  readonly onAgreed: () => Promise<void>;
}

const none = "";
const confidenceWords = { sure: "sure", likely: "likely", unsure: "asked", said: "your choice" } as const;

export function ColumnsStep({ brought, isBusy, onChange, onAgreed }: ColumnsProps) {
  if (brought.kind !== "sheet")
    return <p>These are tables in the columns of the toolkit: there is nothing to agree on.</p>;
  const { columns } = brought;
  const open = columns.questions.length;
  return (
    <>
      {columns.sheets.length > 1 ? (
        <p>
          <label>
            Sheet of the workbook{" "}
            <select
              disabled={isBusy}
              value={columns.sheet ?? none}
              onChange={({ currentTarget }) => void onChange({ kind: "sheet", sheet: currentTarget.value })}
            >
              {columns.sheets.map((name) => (
                <option key={name}>{name}</option>
              ))}
            </select>
          </label>
        </p>
      ) : null}
      {columns.codes === null ? null : <p>{columns.codes}</p>}
      <Questions columns={columns} isBusy={isBusy} onChange={onChange} />
      <Preview columns={columns} />
      <details open={open === 0}>
        <summary>Which column is read as what</summary>
        <FieldTable columns={columns} isBusy={isBusy} onChange={onChange} />
      </details>
      {columns.leftOut.length === 0 ? null : (
        <details>
          <summary>{columns.leftOut.length} columns are not used</summary>
          <ul>
            {columns.leftOut.map(({ name, holds, filled }) => (
              <li key={name}>
                <b>{name}</b>: {filled} filled cells{holds === "" ? "" : ` (${holds})`}
              </li>
            ))}
          </ul>
        </details>
      )}
      <p class="go-on">
        <button type="button" class="main" disabled={isBusy || open > 0} onClick={() => void onAgreed()}>
          The rows are read rightly
        </button>
        {open > 0 ? (
          <span> {open === 1 ? "One question is" : `${open} questions are`} open above.</span>
        ) : null}
        <button
          type="button"
          class="quiet"
          disabled={isBusy}
          onClick={() => void onChange({ kind: "start-over" })}
        >
          Take back all choices
        </button>
      </p>
    </>
  );
}

type Part = Omit<ColumnsProps, "brought" | "onAgreed"> & { readonly columns: ColumnsView };

function Questions({ columns: { questions }, isBusy, onChange }: Part) {
  return (
    <>
      {questions.map(({ question, example, choices, other }) => (
        <fieldset class="question" key={question}>
          <legend>{question}</legend>
          {example === null ? null : (
            <p class="example">
              A cell reads: <code>{example}</code>
            </p>
          )}
          <div class="choices">
            {choices.map(({ answer, means }) => (
              <button
                type="button"
                key={answer}
                disabled={isBusy}
                onClick={() => void onChange({ kind: "answer", question, answer })}
              >
                <b>{answer.replaceAll("_", " ")}</b>
                {means === answer ? null : <span>{means}</span>}
              </button>
            ))}
          </div>
          {other === null ? null : (
            <OtherAnswer
              hint={other}
              isBusy={isBusy}
              onAnswer={(answer) => void onChange({ kind: "answer", question, answer })}
            />
          )}
        </fieldset>
      ))}
    </>
  );
}

/** An answer that was not proposed. */
function OtherAnswer({
  hint,
  isBusy,
  onAnswer,
}: {
  readonly hint: string;
  readonly isBusy: boolean;
  readonly onAnswer: (answer: string) => void;
}) {
  const [text, setText] = useState("");
  return (
    <p class="other">
      <label>
        Or write {hint}:{" "}
        <input type="text" value={text} onInput={({ currentTarget }) => setText(currentTarget.value)} />
      </label>{" "}
      <button type="button" disabled={isBusy || text.trim() === ""} onClick={() => onAnswer(text)}>
        Take this
      </button>
    </p>
  );
}

function Preview({ columns: { preview } }: Pick<Part, "columns">) {
  const rows = preview.names.map((name, i) => ({ name, cells: preview.rows.map(({ cells }) => cells[i]!) }));
  return (
    <ScrollBox name="The first rows as they are read">
      <table>
        <caption>The first rows as they are read; a marked cell will be asked about</caption>
        <thead>
          <tr>
            <td />
            {preview.rows.map(({ row }) => (
              <th scope="col" key={row}>
                row {row}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, cells }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {cells.map(({ text, isAsked }, i) => (
                <td key={preview.rows[i]!.row} class={isAsked ? "asked-cell" : ""}>
                  {isAsked ? <span class="ask-mark">? </span> : null}
                  {text}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  );
}

function FieldTable({ columns: { fields, columns }, isBusy, onChange }: Part) {
  const isUsed = (field: FieldView) => field.sources.length > 0 || field.isRequired;
  const parts = [fields.filter(isUsed), fields.filter((field) => !isUsed(field))] as const;
  const rows = (part: readonly FieldView[]) =>
    part.map((field) => (
      <FieldRow key={field.field} field={field} columns={columns} isBusy={isBusy} onChange={onChange} />
    ));
  return (
    <>
      <ScrollBox name="Which column is read as what">
        <table>
          <thead>
            <tr>
              <th scope="col">We need</th>
              <th scope="col">Your column</th>
              <th scope="col">How sure</th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>{rows(parts[0])}</tbody>
        </table>
      </ScrollBox>
      <details>
        <summary>What else could be read</summary>
        <ScrollBox name="What else could be read">
          <table>
            <tbody>{rows(parts[1])}</tbody>
          </table>
        </ScrollBox>
      </details>
    </>
  );
}

function FieldRow({
  field,
  columns,
  isBusy,
  onChange,
}: { readonly field: FieldView; readonly columns: readonly string[] } & Pick<Part, "isBusy" | "onChange">) {
  const choose = (name: string) =>
    void onChange({ kind: "column", field: field.field, column: name === none ? null : name });
  return (
    <tr>
      <th scope="row">
        {field.label}
        {field.isRequired ? <span class="must"> (every row needs it)</span> : null}
        <span class="what">{field.description}</span>
      </th>
      <td>
        {field.sources.length > 1 ? (
          field.sources.join(" + ")
        ) : (
          <select
            aria-label={`Column for ${field.label}`}
            disabled={isBusy}
            value={field.sources[0] ?? none}
            onChange={({ currentTarget }) => choose(currentTarget.value)}
          >
            <option value={none}>no column</option>
            {columns.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        )}
      </td>
      <td>{field.sources.length === 0 ? "" : confidenceWords[field.confidence]}</td>
      <td class="why">{field.evidence.join("; ")}</td>
    </tr>
  );
}
