import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { meanings } from "../../words/meanings.js";

const meaningOf = new Map(meanings.flatMap(({ forms, meaning }) => forms.map((form) => [form, meaning])));
/** Forms as they may be printed: a space may be one at which a line does not break. */
const anyForm = new RegExp(
  `(?<![\\p{L}-])(${[...meaningOf.keys()]
    .sort((one, other) => other.length - one.length)
    .map((form) => form.replaceAll(" ", "\\s"))
    .join("|")})(?![\\p{L}-])`,
  "gu",
);
const meaningIn = (part: string): string | undefined => meaningOf.get(part.replaceAll(/\s/g, " "));

/** A term that says what it means when it is pressed. */
export function Term({ term }: { readonly term: string }) {
  const id = useId();
  return (
    <span class="term">
      <button type="button" popovertarget={id}>
        {term}
      </button>
      <span id={id} popover="auto" role="note" class="meaning">
        <strong>{term}</strong>
        <br />
        {meaningIn(term)}
      </span>
    </span>
  );
}

interface WordedProps {
  readonly text: string;
  /** Meanings that can be asked for further up already. */
  readonly told?: Set<string>;
}

/** A text in which each term can be asked for its meaning where it stands first. */
export function Worded({ text, told = new Set() }: WordedProps) {
  const parts = text.split(anyForm).map((part, i): ComponentChildren => {
    const meaning = meaningIn(part);
    if (i % 2 === 0 || meaning === undefined || told.has(meaning)) return part;
    told.add(meaning);
    return <Term key={i} term={part} />;
  });
  return <>{parts}</>;
}
