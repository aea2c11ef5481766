import { useRef, useState } from "preact/hooks";
import type { CurveView, FamilyView } from "../engine/tasks.js";

/** Where fewer than this are at risk a curve is drawn thinner. */
const fewAtRisk = 5;
const colours = ["#0072B2", "#D55E00", "#009E73", "#CC79A7"];
const dashes = ["", "7 4", "2 3", "9 3 2 3"];
const frame = { width: 720, height: 360, left: 52, right: 14, top: 12, bottom: 40 };
const inner = {
  width: frame.width - frame.left - frame.right,
  height: frame.height - frame.top - frame.bottom,
};

interface CurvesProps {
  readonly families: readonly FamilyView[];
  readonly horizon: number;
  readonly isSynthetic: boolean;
}

type At = CurveView["steps"][number];

/** Curves to walk along: pointing at them, or the arrow keys, give the sentence of a day. */
export function Curves({ families, horizon, isSynthetic }: CurvesProps) {
  const [chosen, setChosen] = useState(0);
  const { title, curves } = families[Math.min(chosen, families.length - 1)] ?? { title: "", curves: [] };
  const [day, setDay] = useState(Math.min(91, horizon));
  const [hidden, setHidden] = useState<ReadonlySet<string>>(new Set());
  const box = useRef<SVGSVGElement>(null);
  const xOf = (at: number) => frame.left + (inner.width * at) / horizon;
  const yOf = (share: number) => frame.top + inner.height * (1 - share);
  const shown = curves.map((curve, i) => ({ ...curve, i })).filter(({ label }) => !hidden.has(label));
  const point = (clientX: number) => {
    const { left, width } = box.current!.getBoundingClientRect();
    const at = (((clientX - left) / width) * frame.width - frame.left) * (horizon / inner.width);
    setDay(Math.round(Math.min(horizon, Math.max(0, at))));
  };
  const weeks = Array.from({ length: Math.floor(horizon / 28) + 1 }, (_, i) => i * 4);
  return (
    <figure class="walk">
      {families.length < 2 ? null : (
        <fieldset class="families">
          <legend>The groups</legend>
          {families.map((family, i) => (
            <label key={family.title}>
              <input type="radio" name="family" checked={i === chosen} onChange={() => setChosen(i)} />{" "}
              {family.title}
            </label>
          ))}
        </fieldset>
      )}
      <fieldset class="legend" aria-label="Groups shown">
        {curves.map(({ label, n }, i) => (
          <button
            type="button"
            class="chip"
            key={label}
            aria-pressed={!hidden.has(label)}
            onClick={() =>
              setHidden(
                (before) =>
                  new Set(
                    before.has(label) ? [...before].filter((each) => each !== label) : [...before, label],
                  ),
              )
            }
          >
            <svg width="28" height="8" aria-hidden="true">
              <line
                x1="0"
                x2="28"
                y1="4"
                y2="4"
                stroke={colours[i % 4]}
                stroke-width="3"
                stroke-dasharray={dashes[i % 4]}
              />
            </svg>{" "}
            {label} ({n})
          </button>
        ))}
      </fieldset>
      <svg
        ref={box}
        viewBox={`0 0 ${frame.width} ${frame.height}`}
        role="img"
        aria-label="Share back by week; the slider below walks along the curves, and a table says the same"
        onPointerMove={({ clientX }) => point(clientX)}
        onPointerDown={({ clientX }) => point(clientX)}
      >
        {[0, 0.25, 0.5, 0.75, 1].map((share) => (
          <g key={share}>
            <line
              class="grid"
              x1={frame.left}
              x2={frame.width - frame.right}
              y1={yOf(share)}
              y2={yOf(share)}
            />
            <text class="tick" x={frame.left - 8} y={yOf(share) + 4} text-anchor="end">
              {share * 100} %
            </text>
          </g>
        ))}
        {weeks.map((week) => (
          <text key={week} class="tick" x={xOf(week * 7)} y={frame.height - 18} text-anchor="middle">
            {week}
          </text>
        ))}
        <text class="tick" x={frame.left + inner.width / 2} y={frame.height - 3} text-anchor="middle">
          weeks{isSynthetic ? " · SYNTHETIC DATA" : ""}
        </text>
        {shown.map(({ label, steps, i }) => (
          <g key={label}>
            <path class="band" d={bandOf(steps, { xOf, yOf, horizon })} fill={colours[i % 4]} />
            {pieces(steps).map(({ from, to, isFew }) => (
              <path
                key={from}
                class={isFew ? "curve few" : "curve"}
                d={lineOf(steps, { from, to, xOf, yOf, horizon })}
                stroke={colours[i % 4]}
                stroke-dasharray={dashes[i % 4]}
              />
            ))}
          </g>
        ))}
        <line class="now" x1={xOf(day)} x2={xOf(day)} y1={frame.top} y2={frame.top + inner.height} />
      </svg>
      <input
        type="range"
        class="day"
        min={0}
        max={horizon}
        value={day}
        aria-label="Day on the curves"
        aria-valuetext={sentences(shown, day).join(" ")}
        onInput={({ currentTarget }) => setDay(Number(currentTarget.value))}
      />
      <figcaption>
        <p class="day-words" aria-live="polite">
          {sentences(shown, day).map((sentence) => (
            <span key={sentence}>{sentence} </span>
          ))}
        </p>
        <p class="hint">
          Point at the curves, or move the slider by a day with the arrow keys. A curve is thin where fewer
          than {fewAtRisk} are still followed. Shaded: 95 % confidence intervals of each group, {title}.
        </p>
        <details>
          <summary>The same as a table</summary>
          <Landmarks curves={curves} horizon={horizon} />
        </details>
      </figcaption>
    </figure>
  );
}

/** The last step at or before a day; null after the last follow-up. */
const stepAt = (steps: readonly At[], day: number): At | null =>
  steps.findLast((step) => step.day <= day) ?? null;

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function sentences(curves: readonly CurveView[], day: number): readonly string[] {
  const week = day % 7 === 0 ? `week ${day / 7}` : `week ${(day / 7).toFixed(1)}`;
  return [
    `By ${week} (day ${day}):`,
    ...curves.map(({ label, steps, n }) => {
      const at = stepAt(steps, day);
      if (at === null) return `${label}: not known.`;
      const limits =
        at.lower === null || at.upper === null ? "" : ` (${percent(at.lower)} to ${percent(at.upper)})`;
      return `${label}: ${percent(at.back)} back${limits}, ${at.atRisk} of ${n} still followed then.`;
    }),
  ];
}

/** Stretches of a curve with many and with few at risk, in turn: first and last step of each. */
function pieces(
  steps: readonly At[],
): readonly { readonly from: number; readonly to: number; readonly isFew: boolean }[] {
  const found: { from: number; to: number; isFew: boolean }[] = [];
  for (const [i, { atRisk }] of steps.entries()) {
    const isFew = atRisk < fewAtRisk;
    const last = found.at(-1);
    if (last?.isFew === isFew) last.to = i;
    else found.push({ from: i, to: i, isFew });
  }
  return found;
}

interface Scales {
  readonly xOf: (day: number) => number;
  readonly yOf: (share: number) => number;
  readonly horizon: number;
}

/** A stretch as a line: from where the one before it ended. */
function lineOf(
  steps: readonly At[],
  { from, to, xOf, yOf, horizon }: Scales & { readonly from: number; readonly to: number },
): string {
  return steps
    .slice(Math.max(0, from - 1), to + 1)
    .filter(({ day }) => day <= horizon)
    .map(({ day, back }, i) => (i === 0 ? `M${xOf(day)},${yOf(back)}` : `H${xOf(day)}V${yOf(back)}`))
    .join("");
}

function bandOf(steps: readonly At[], { xOf, yOf, horizon }: Scales): string {
  const known = steps.filter((step) => step.lower !== null && step.upper !== null && step.day <= horizon);
  if (known.length < 2) return "";
  const side = (of: (step: At) => number) =>
    known.map((step, i) =>
      i === 0
        ? `${xOf(step.day)},${yOf(of(step))}`
        : `${xOf(step.day)},${yOf(of(known[i - 1]!))} ${xOf(step.day)},${yOf(of(step))}`,
    );
  return `M${side((step) => step.upper!)
    .join("L")
    .replaceAll(" ", "L")}L${side((step) => step.lower!)
    .reverse()
    .map((pair) => pair.split(" ").reverse().join("L"))
    .join("L")}Z`;
}

function Landmarks({ curves, horizon }: { readonly curves: readonly CurveView[]; readonly horizon: number }) {
  const weeks = [6, 8, 10, 13, 17, 26].filter((week) => week * 7 <= horizon);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Week</th>
          {curves.map(({ label }) => (
            <th scope="col" key={label}>
              {label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {weeks.map((week) => (
          <tr key={week}>
            <th scope="row">{week}</th>
            {curves.map(({ label, steps }) => {
              const at = stepAt(steps, week * 7);
              return (
                <td key={label}>
                  {at === null
                    ? "not known"
                    : `${percent(at.back)}${at.lower === null || at.upper === null ? "" : ` (${percent(at.lower)} to ${percent(at.upper)})`}, ${at.atRisk} followed`}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
