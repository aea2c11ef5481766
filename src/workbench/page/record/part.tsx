import type { DraftPart } from "../../engine/record/draft.js";
import type {
  DraftFindings,
  Finding,
  FormField,
  FormSection,
  RecordForms,
} from "../../engine/record/record-tasks.js";
import { Field } from "./field.js";

interface PartProps {
  readonly part: DraftPart;
  readonly forms: RecordForms;
  readonly found: DraftFindings["rows"][number] | null;
  readonly isAsked: boolean;
  /** Whether the injury is known, so that nobody has to name it in this row. */
  readonly isNamed: boolean;
  readonly onWrite: (column: string, text: string) => void;
  readonly onTakeOut: (() => void) | null;
}

/** One row that is being written, in the sections of its table. */
export function Part(props: PartProps) {
  const { part, forms, found } = props;
  const sections = forms[part.table].filter(({ id }) => part.section === null || id === part.section);
  const about = (found?.findings ?? []).filter(({ column }) => column === null);
  return (
    <>
      {sections.map((section) => (
        <Section key={section.id} {...props} section={section} />
      ))}
      {about.map(({ what, correction, consequence }) => (
        <p class="found-line" key={what}>
          <strong>{what}</strong> {correction} {consequence}
        </p>
      ))}
    </>
  );
}

function Section({
  part,
  section,
  found,
  isAsked,
  isNamed,
  onWrite,
  onTakeOut,
}: PartProps & { readonly section: FormSection }) {
  const own = section.fields.filter(
    ({ name }) => part.table === "injuries" || !isNamed || name !== "injury_id",
  );
  const textOf = ({ name }: FormField): string => part.cells[name] ?? "";
  const about = ({ name }: FormField): readonly Finding[] =>
    (found?.findings ?? []).filter(({ column }) => column === name);
  const field = (one: FormField) => (
    <Field
      key={one.name}
      field={one}
      id={`row-${part.key}-${one.name}`}
      text={textOf(one)}
      findings={about(one)}
      isAsked={isAsked}
      onWrite={(text) => onWrite(one.name, text)}
    />
  );
  const usual = own.filter(({ isUsual }) => isUsual);
  const more = own.filter(({ isUsual }) => !isUsual);
  const filled = more.filter((one) => textOf(one) !== "").length;
  const isOpen = more.some((one) => about(one).length > 0);
  return (
    <fieldset class="part">
      <legend>{section.title}</legend>
      <div class="fields">{usual.map(field)}</div>
      {more.length === 0 ? null : (
        <details {...(isOpen ? { open: true } : {})}>
          <summary>
            {more.length} more{filled === 0 ? "" : `, ${filled} filled in`}
          </summary>
          <div class="fields">{more.map(field)}</div>
        </details>
      )}
      {onTakeOut === null ? null : (
        <button type="button" class="quiet" onClick={onTakeOut}>
          {part.isNew ? "Not this row after all" : "Leave this row as it was"}
        </button>
      )}
    </fieldset>
  );
}
