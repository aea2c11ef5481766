import { useState } from "preact/hooks";
import type { Finding, FormField } from "../../engine/record/record-tasks.js";

interface FieldProps {
  readonly field: FormField;
  readonly id: string;
  readonly text: string;
  readonly findings: readonly Finding[];
  /** Whether what is still blank is said too. */
  readonly isAsked: boolean;
  readonly onWrite: (text: string) => void;
}

/** One field of a form: its name, what belongs there, and at once what the checks of ingest say about it. */
export function Field(props: FieldProps) {
  const { field, id, text, findings, isAsked } = props;
  const [isLeft, setIsLeft] = useState(false);
  // what was said of a blank field is past as soon as something stands in it
  const shown = findings.filter(({ isBlank }) => !isBlank || (text === "" && (isLeft || isAsked)));
  const isList = field.kind === "list";
  return (
    <div class={`field ${shown.length > 0 ? worst(shown) : ""}`} onFocusOut={() => setIsLeft(true)}>
      {isList ? (
        <span class="label" id={`${id}-name`}>
          <Name field={field} />
        </span>
      ) : (
        <label class="label" for={id}>
          <Name field={field} />
        </label>
      )}
      <Entry {...props} described={`${id}-hint ${id}-found`} isWrong={worst(shown) === "set-aside"} />
      <p class="hint" id={`${id}-hint`}>
        {field.description}.{hintOf(field)}
      </p>
      <div id={`${id}-found`}>
        {shown.map(({ what, correction, consequence }) => (
          <p class="found-line" key={what}>
            <strong>{what}</strong> {correction} {consequence}
          </p>
        ))}
      </div>
    </div>
  );
}

const worst = (findings: readonly Finding[]): "" | "set-aside" | "look-at" => {
  if (findings.length === 0) return "";
  return findings.some(({ severity }) => severity !== "look-at") ? "set-aside" : "look-at";
};

const Name = ({ field: { label, unit, isRequired } }: { readonly field: FormField }) => (
  <>
    {label}
    {unit === null ? null : <span class="unit"> in {unit}</span>}
    {isRequired ? <span class="must"> · every row needs it</span> : null}
  </>
);

/** What belongs into the field, where the field itself does not offer it. */
const hintOf = ({ kind, expected }: FormField): string =>
  expected === null || kind === "choice" || kind === "list" ? "" : ` ${expected}`;

interface EntryProps extends FieldProps {
  readonly described: string;
  readonly isWrong: boolean;
}

function Entry(props: EntryProps) {
  const { field, id, text, described, isWrong, onWrite } = props;
  if (field.kind === "list") return <ListEntry {...props} />;
  const about = { id, "aria-describedby": described, "aria-invalid": isWrong };
  if (field.kind === "choice")
    return (
      <select {...about} value={text} onChange={({ currentTarget }) => onWrite(currentTarget.value)}>
        <Choices field={field} text={text} none="not recorded" />
      </select>
    );
  const isNumber = field.kind === "number" || field.kind === "integer";
  return (
    <input
      {...about}
      type="text"
      autocomplete="off"
      spellcheck={field.kind === "text"}
      inputMode={isNumber ? "decimal" : "text"}
      class={isNumber || field.kind === "date" ? "short" : ""}
      value={text}
      onInput={({ currentTarget }) => onWrite(currentTarget.value)}
    />
  );
}

/** The words to choose from; a text of the file that is none of them stands among them, so that it is not lost. */
const Choices = ({ field, text, none }: Pick<FieldProps, "field" | "text"> & { readonly none: string }) => (
  <>
    <option value="">{none}</option>
    {text === "" || field.terms.some(({ term }) => term === text) ? null : (
      <option value={text}>{text} (as it stands in the file)</option>
    )}
    {field.terms.map(({ term, label }) => (
      <option key={term} value={term}>
        {label}
      </option>
    ))}
  </>
);

/** Several words in one cell, in their order: one choice after another, and a blank one to go on with. */
function ListEntry({ field, id, text, described, isWrong, onWrite }: EntryProps) {
  const words = text === "" ? [] : text.split("|").map((word) => word.trim());
  const write = (place: number, word: string) => {
    const next =
      place === words.length ? [...words, word] : words.map((old, i) => (i === place ? word : old));
    onWrite(next.filter((one) => one !== "").join("|"));
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would stand around one field
    <div class="several" role="group" aria-labelledby={`${id}-name`} aria-describedby={described}>
      {[...words, ""].map((word, i) => (
        <select
          key={i}
          id={i === 0 ? id : undefined}
          aria-label={`${field.label}, ${i + 1}`}
          aria-invalid={isWrong}
          value={word}
          onChange={({ currentTarget }) => write(i, currentTarget.value)}
        >
          <Choices
            field={field}
            text={word}
            none={i === 0 ? "not recorded" : i < words.length ? "take out" : "and …"}
          />
        </select>
      ))}
    </div>
  );
}
