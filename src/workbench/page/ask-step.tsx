import type { ComponentChildren } from "preact";
import { labelOf } from "../../schema/labels.js";
import type { AskView, NamedBytes, QuestionChoices } from "../engine/tasks.js";
import { SharedQuestion } from "./pooling/shared-question.js";

interface AskProps {
  readonly asked: AskView;
  readonly isBusy: boolean;
  readonly onAsk: (change: Partial<QuestionChoices>) => Promise<unknown>;
  readonly onAgree: (file: NamedBytes) => Promise<unknown>;
  readonly onRead: () => Promise<void>;
}

const milestones = [
  ["easy_climbing", "easy climbing"],
  ["full_climbing", "full climbing"],
  ["previous_level", "the previous level"],
] as const;
const clocks = [
  ["injury", "the injury"],
  ["first_visit", "the first visit"],
  ["treatment_start", "the start of treatment"],
] as const;
const weeksOffered = [6, 8, 10, 13, 17, 26];

/** A question in a sentence, with its choices inside it. */
export function AskStep({ asked, isBusy, onAsk, onAgree, onRead }: AskProps) {
  const { choices, groupsOf, injuries } = asked;
  const fields = Object.keys(groupsOf).filter((by) => groupsOf[by]!.length > 1);
  // a field that no longer divides the injuries stays in sight while the question names it
  const adjustable = [...new Set([...fields, ...choices.adjustFor])];
  const terms = groupsOf[choices.by] ?? [];
  const compared = choices.groups.filter((group) => group !== choices.reference);
  const grades = groupsOf.grade ?? [];
  const change = (next: Partial<QuestionChoices>) => void onAsk(next);
  const compareBy = (by: string) => {
    const [reference, ...others] = [...(groupsOf[by] ?? [])]
      .sort((one, other) => other.n - one.n)
      .map(({ term }) => term);
    change({
      by: by as QuestionChoices["by"],
      reference: reference!,
      groups: [others[0]!, reference!],
      adjustFor: by === "grade" ? [] : ["grade"],
    });
  };
  const toggle = (list: readonly string[], term: string) =>
    list.includes(term) ? list.filter((each) => each !== term) : [...list, term];
  return (
    <>
      <div class="sentence">
        Among{" "}
        <Chips
          legend="grades"
          terms={grades}
          chosen={choices.grades}
          all="all grades"
          isBusy={isBusy}
          onToggle={(term) => change({ grades: toggle(choices.grades, term) })}
        />
        compare, by{" "}
        <Choice name="compared by" value={choices.by} isBusy={isBusy} onChoose={compareBy}>
          {fields.map((by) => (
            <option key={by} value={by}>
              {labelOf(by)}
            </option>
          ))}
        </Choice>
        ,{" "}
        <Chips
          legend="groups"
          terms={terms.filter(({ term }) => term !== choices.reference)}
          chosen={compared}
          all={null}
          isBusy={isBusy}
          onToggle={(term) => {
            const next = toggle(compared, term);
            if (next.length > 0) change({ groups: [...next, choices.reference] });
          }}
        />
        with{" "}
        <Choice
          name="reference"
          value={choices.reference}
          isBusy={isBusy}
          onChoose={(reference) =>
            change({
              reference,
              groups:
                [...compared.filter((group) => group !== reference), reference].length > 1
                  ? [...compared.filter((group) => group !== reference), reference]
                  : [choices.reference, reference],
            })
          }
        >
          {terms.map(({ term, label, n }) => (
            <option key={term} value={term}>
              {label} ({n})
            </option>
          ))}
        </Choice>{" "}
        for{" "}
        <Choice
          name="return"
          value={choices.milestone}
          isBusy={isBusy}
          onChoose={(milestone) => change({ milestone: milestone as QuestionChoices["milestone"] })}
        >
          {milestones.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </Choice>{" "}
        by{" "}
        <Choice
          name="weeks"
          value={String(choices.weeks)}
          isBusy={isBusy}
          onChoose={(weeks) => change({ weeks: Number(weeks) })}
        >
          {[...new Set([...weeksOffered, choices.weeks])]
            .sort((a, b) => a - b)
            .map((weeks) => (
              <option key={weeks} value={String(weeks)}>
                {weeks} weeks
              </option>
            ))}
        </Choice>
        , counting from{" "}
        <Choice
          name="day 0"
          value={choices.clock}
          isBusy={isBusy}
          onChoose={(clock) => change({ clock: clock as QuestionChoices["clock"] })}
        >
          {clocks.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </Choice>
        , fair for{" "}
        <Choice
          name="adjusted for"
          value={choices.adjustFor[0] ?? ""}
          isBusy={isBusy}
          onChoose={(field) => change({ adjustFor: field === "" ? [] : [field] })}
        >
          <option value="">nothing (as they are)</option>
          {adjustable
            .filter((field) => field !== choices.by && field !== "first_treatment")
            .map((field) => (
              <option key={field} value={field}>
                {labelOf(field)}
              </option>
            ))}
        </Choice>
        .
      </div>
      <p class="small-choices">
        <label>
          Title of the report{" "}
          <input
            type="text"
            class="wide"
            value={choices.title}
            disabled={isBusy}
            onChange={({ currentTarget }) => change({ title: currentTarget.value })}
          />
        </label>
        <label>
          Data closed on (year-month-day){" "}
          <input
            type="text"
            placeholder="2025-06-30"
            inputMode="numeric"
            value={choices.closedOn ?? ""}
            disabled={isBusy}
            onChange={({ currentTarget }) =>
              change({ closedOn: currentTarget.value === "" ? null : currentTarget.value })
            }
          />
        </label>
      </p>
      <SharedQuestion isBusy={isBusy} onAgree={onAgree} />
      <p class="go-on">
        <button type="button" class="main" disabled={isBusy} onClick={() => void onRead()}>
          Answer
        </button>
        <span> {injuries} injuries can be counted.</span>
      </p>
    </>
  );
}

interface ChoiceProps {
  readonly name: string;
  readonly value: string;
  readonly isBusy: boolean;
  readonly onChoose: (value: string) => void;
  readonly children: ComponentChildren;
}

const Choice = ({ name, value, isBusy, onChoose, children }: ChoiceProps) => (
  <select
    class="in-sentence"
    aria-label={name}
    value={value}
    disabled={isBusy}
    onChange={({ currentTarget }) => onChoose(currentTarget.value)}
  >
    {children}
  </select>
);

interface ChipsProps {
  readonly legend: string;
  readonly terms: readonly { readonly term: string; readonly label: string; readonly n: number }[];
  readonly chosen: readonly string[];
  /** What it is called where none is chosen; null where one must be. */
  readonly all: string | null;
  readonly isBusy: boolean;
  readonly onToggle: (term: string) => void;
}

const Chips = ({ legend, terms, chosen, all, isBusy, onToggle }: ChipsProps) => (
  <fieldset class="chips" aria-label={legend}>
    {all !== null && chosen.length === 0 ? <span class="all">{all} </span> : null}
    {terms.map(({ term, label, n }) => (
      <button
        type="button"
        key={term}
        class="chip"
        aria-pressed={chosen.includes(term)}
        disabled={isBusy}
        onClick={() => onToggle(term)}
      >
        {label} ({n})
      </button>
    ))}{" "}
  </fieldset>
);
