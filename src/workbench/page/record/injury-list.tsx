import { useState } from "preact/hooks";
import type { LinkedTableName } from "../../../schema/table-names.js";
import type { Finding, InjuryView, LinkedRowView, RecordView } from "../../engine/record/record-tasks.js";

interface RowNamed {
  readonly table: LinkedTableName;
  readonly key: number;
}

interface ListProps {
  readonly view: RecordView;
  readonly onVisit: (key: number) => void;
  readonly onCorrect: (row: RowNamed) => void;
  readonly onTakeOut: (row: RowNamed & { readonly what: string }) => void;
}

/** So many injuries are shown at once. */
const shown = 50;

/** The injuries of the record, to be searched, opened and gone on with. */
export function InjuryList({ view, ...does }: ListProps) {
  const [sought, setSought] = useState("");
  const [isAll, setIsAll] = useState(false);
  const words = sought
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  const found = view.injuries.filter((injury) => words.every((word) => textOf(injury).includes(word)));
  const listed = isAll ? found : found.slice(0, shown);
  return (
    <section aria-labelledby="injuries-title">
      <h3 id="injuries-title">Injuries</h3>
      <p>
        <label>
          Search{" "}
          <input
            type="text"
            value={sought}
            placeholder=""
            onInput={({ currentTarget }) => setSought(currentTarget.value)}
          />
        </label>{" "}
        <span role="status">
          {words.length === 0
            ? counted(view.injuries.length)
            : `${found.length} of ${counted(view.injuries.length)} with ${sought.trim()}`}
        </span>
      </p>
      <ul class="injuries">
        {listed.map((injury) => (
          <Injury key={injury.key} injury={injury} {...does} />
        ))}
      </ul>
      {listed.length < found.length ? (
        <p>
          <button type="button" onClick={() => setIsAll(true)}>
            Show all {found.length}
          </button>
        </p>
      ) : null}
      {view.loose.length === 0 ? null : (
        <>
          <h4>Rows that name no injury of the record</h4>
          <Rows rows={view.loose} of="no injury" {...does} />
        </>
      )}
    </section>
  );
}

const counted = (n: number): string => (n === 1 ? "1 injury" : `${n} injuries`);

const textOf = ({ id, person, when, where, grade, treatments }: InjuryView): string =>
  [id, person, when, where, grade, treatments].join(" ").toLowerCase();

function Injury({ injury, onVisit, ...does }: Omit<ListProps, "view"> & { readonly injury: InjuryView }) {
  const { key, id, where, when, grade, treatments, back, lastContact, isSetAside, findings, rows } = injury;
  const asked = findings.length + rows.reduce((sum, row) => sum + row.findings.length, 0);
  const name = id === "" ? "without a name" : id;
  return (
    <li>
      <h4>
        {name} <span class="of-finger">{where}</span>
      </h4>
      <p class="in-a-line">
        {when === "" ? "day of injury not recorded" : `injured ${when}`} ·{" "}
        {grade === "" ? "grade not recorded" : `grade ${grade}`} ·{" "}
        {treatments === "" ? "no treatment recorded" : treatments} ·{" "}
        {back === "" ? "full climbing not recorded" : `full climbing ${back}`} · last contact{" "}
        {lastContact === "" ? "not recorded" : lastContact}
      </p>
      {isSetAside ? (
        <p class="set-aside-mark">Set aside: counts in no result until it is corrected.</p>
      ) : null}
      <p class="does">
        <button type="button" onClick={() => onVisit(key)}>
          Next visit<span class="unseen"> of {name}</span>
        </button>
        <button type="button" class="quiet" onClick={() => does.onCorrect({ table: "injuries", key })}>
          Correct<span class="unseen"> {name}</span>
        </button>
        <button
          type="button"
          class="quiet"
          onClick={() => does.onTakeOut({ table: "injuries", key, what: sayInjury(name, rows.length) })}
        >
          Take out<span class="unseen"> {name}</span>
        </button>
      </p>
      {rows.length + asked === 0 ? null : (
        <details>
          <summary>
            {rows.length === 1 ? "1 row" : `${rows.length} rows`}
            {asked === 0 ? "" : `, ${asked === 1 ? "1 query" : `${asked} queries`}`}
            <span class="unseen"> of {name}</span>
          </summary>
          <Findings findings={findings} />
          <Rows rows={rows} of={name} {...does} />
        </details>
      )}
    </li>
  );
}

const sayInjury = (name: string, rows: number): string =>
  rows === 0
    ? `injury ${name}`
    : `injury ${name} with its ${rows === 1 ? "one row" : `${rows} rows`} of treatments, distances and visits`;

const kinds = { treatments: "treatment", imaging: "distance", visits: "visit" } as const;

function Rows({
  rows,
  of,
  onCorrect,
  onTakeOut,
}: Pick<ListProps, "onCorrect" | "onTakeOut"> & {
  readonly rows: readonly LinkedRowView[];
  readonly of: string;
}) {
  return (
    <ul class="rows">
      {rows.map(({ table, key, day, words, findings }) => {
        const what = `${kinds[table]}${day === "" ? "" : ` of ${day}`}`;
        return (
          <li key={key}>
            <span class="row-line">
              <b>{day === "" ? "no day" : day}</b> {kinds[table]}
              {words === "" ? "" : `: ${words}`}
            </span>
            <button type="button" class="quiet" onClick={() => onCorrect({ table, key })}>
              Correct
              <span class="unseen">
                {" "}
                {what}, {of}
              </span>
            </button>
            <button
              type="button"
              class="quiet"
              onClick={() => onTakeOut({ table, key, what: `${what}, ${of}` })}
            >
              Take out
              <span class="unseen">
                {" "}
                {what}, {of}
              </span>
            </button>
            <Findings findings={findings} />
          </li>
        );
      })}
    </ul>
  );
}

const Findings = ({ findings }: { readonly findings: readonly Finding[] }) => (
  <>
    {findings.map(({ column, what, correction, consequence }) => (
      <p class="found-line" key={`${column} ${what}`}>
        <strong>
          {column === null ? "" : `${column.replaceAll("_", " ")}: `}
          {what}
        </strong>{" "}
        {correction} {consequence}
      </p>
    ))}
  </>
);
