import { useState } from "preact/hooks";
import type { NamedBytes, TalkView } from "../engine/tasks.js";
import { saveFile } from "./save-file.js";

interface TalkOverProps {
  readonly talk: readonly TalkView[];
  readonly isBusy: boolean;
  readonly onTalk: (group: string) => Promise<NamedBytes | null>;
}

/** A page for the conversation with a climber: about whom, and why about some there is none. */
export function TalkOver({ talk, isBusy, onTalk }: TalkOverProps) {
  const possible = talk.filter(({ whyNot }) => whyNot === null);
  const others = talk.filter(({ whyNot }) => whyNot !== null);
  const [chosen, setChosen] = useState<string | null>(null);
  const group = possible.find(({ name }) => name === chosen) ?? possible[0];
  const save = async () => {
    const file = await onTalk(group!.name);
    if (file !== null) saveFile(file, "text/html");
  };
  return (
    <section class="talk" aria-labelledby="talk-title">
      <h3 id="talk-title">A page to talk over</h3>
      <p>
        One sheet of A4 for the conversation with a climber: of 20 climbers like this one, so many were back
        by which week, as dots, with what the numbers leave open, what else happened, and what the page cannot
        say. It is general information about a group, not advice for one finger; a licensed clinician decides.
        Open the saved file in any browser, and print it.
      </p>
      {group === undefined ? null : (
        <p class="go-on">
          <label>
            About{" "}
            <select
              value={group.name}
              disabled={isBusy}
              onChange={({ currentTarget }) => setChosen(currentTarget.value)}
            >
              {possible.map(({ name, n }) => (
                <option key={name} value={name}>
                  {name} ({n})
                </option>
              ))}
            </select>
          </label>{" "}
          <button type="button" class="main" disabled={isBusy} onClick={() => void save()}>
            Save the page
          </button>
        </p>
      )}
      {others.length === 0 ? null : (
        <details>
          <summary>
            {group === undefined ? "Why there is no page" : "What there is no page about, and why"}
          </summary>
          <ul>
            {others.map(({ name, whyNot }) => (
              <li key={name}>{whyNot}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
