import { useRef, useState } from "preact/hooks";
import {
  bandOf,
  fewAtRisk,
  lineOf,
  pieces,
  type Scales,
  saidOn,
  sentences,
  shareWords,
  stepsUntil,
} from "../engine/curve-lines.js";
import type { CurveView, FamilyView } from "../engine/tasks.js";
import { Worded } from "./term.js";

const colours = ["#0072B2", "#D55E00", "#009E73", "#CC79A7"];
const dashes = ["", "7 4", "2 3", "9 3 2 3"];
const frame = { width: 720, height: 360, left: 52, right: 14, top: 12, bottom: 40 };
const inner = {
  width: frame.width - frame.left - frame.right,
  height: frame.height - frame.top - frame.bottom,
};
const fewestWeeks = 4;

interface CurvesProps {
  readonly families: readonly FamilyView[];
  /** The last day that the study looks at. */
  readonly horizon: number;
  readonly isSynthetic: boolean;
}

/** A curve with its place among all, which its colour and its dashes follow. */
type Placed = CurveView & { readonly place: number };

/**
 * Curves to walk along: pointing at them, or the arrow keys, give the sentence of a day; the end of the time axis is drawn
 * to an earlier week by its handle or a slider.
 */
export function Curves({ families, horizon, isSynthetic }: CurvesProps) {
  const [chosen, setChosen] = useState(0);
  const { title, curves } = families[Math.min(chosen, families.length - 1)] ?? { title: "", curves: [] };
  const [until, setUntil] = useState(horizon);
  const [at, setDay] = useState(Math.min(91, horizon));
  const [hidden, setHidden] = useState<ReadonlySet<string>>(new Set());
  const day = Math.min(at, until);
  const shown = curves.map((curve, place) => ({ ...curve, place })).filter(({ label }) => !hidden.has(label));
  const toggle = (label: string) =>
    setHidden((before) => {
      const after = new Set(before);
      if (!after.delete(label)) after.add(label);
      return after;
    });
  const said = sentences(shown, day);
  const lastWeek = Math.floor(horizon / 7);
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
      <Legend curves={curves} hidden={hidden} onToggle={toggle} />
      <Drawing {...{ shown, day, until, horizon, isSynthetic }} onDay={setDay} onUntil={setUntil} />
      <input
        type="range"
        class="day"
        min={0}
        max={until}
        value={day}
        aria-label="Day on the curves"
        aria-valuetext={said.join(" ")}
        onInput={({ currentTarget }) => setDay(Number(currentTarget.value))}
      />
      <figcaption>
        <p class="day-words" aria-live="polite">
          {said.map((sentence) => (
            <span key={sentence}>{sentence} </span>
          ))}
        </p>
        {lastWeek <= fewestWeeks ? null : (
          <label class="weeks-shown">
            Weeks shown: {Math.round(until / 7)}
            <input
              type="range"
              min={fewestWeeks}
              max={lastWeek}
              value={Math.round(until / 7)}
              onInput={({ currentTarget }) => setUntil(Number(currentTarget.value) * 7)}
            />
          </label>
        )}
        <p class="hint">
          Point at the curves, or move the slider by a day with the arrow keys. A curve is thin where fewer
          than {fewAtRisk} are <Worded text="at risk" />. Shaded: <Worded text="95 % confidence intervals" />{" "}
          of each group, <Worded text={title} />.
        </p>
        <details>
          <summary>The same as a table</summary>
          <Landmarks curves={curves} horizon={horizon} />
        </details>
      </figcaption>
    </figure>
  );
}

interface LegendProps {
  readonly curves: readonly CurveView[];
  readonly hidden: ReadonlySet<string>;
  readonly onToggle: (label: string) => void;
}

const Legend = ({ curves, hidden, onToggle }: LegendProps) => (
  <fieldset class="legend" aria-label="Groups shown">
    {curves.map(({ label, n }, i) => (
      <button
        type="button"
        class="chip"
        key={label}
        aria-pressed={!hidden.has(label)}
        onClick={() => onToggle(label)}
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
);

interface DrawingProps {
  readonly shown: readonly Placed[];
  readonly day: number;
  readonly until: number;
  readonly horizon: number;
  readonly isSynthetic: boolean;
  readonly onDay: (day: number) => void;
  readonly onUntil: (until: number) => void;
}

function Drawing({ shown, day, until, horizon, isSynthetic, onDay, onUntil }: DrawingProps) {
  const box = useRef<SVGSVGElement>(null);
  /** While the handle is held the axis stays as it was; null when it is not. */
  const [held, setHeld] = useState<number | null>(null);
  const scales: Scales = {
    xOf: (at) => frame.left + (inner.width * at) / until,
    yOf: (share) => frame.top + inner.height * (1 - share),
  };
  const { xOf, yOf } = scales;
  const dayAt = (clientX: number): number => {
    const { left, width } = box.current!.getBoundingClientRect();
    const at = (((clientX - left) / width) * frame.width - frame.left) * (until / inner.width);
    return Math.round(Math.min(until, Math.max(0, at)));
  };
  const move = (clientX: number) => (held === null ? onDay : setHeld)(dayAt(clientX));
  const letGo = () => {
    if (held === null) return;
    setHeld(null);
    onUntil(Math.max(fewestWeeks, Math.round(held / 7)) * 7);
  };
  const end = xOf(held ?? until);
  return (
    <svg
      ref={box}
      viewBox={`0 0 ${frame.width} ${frame.height}`}
      role="img"
      aria-label="Share back by week; the slider below walks along the curves, and a table says the same"
      onPointerMove={({ clientX }) => move(clientX)}
      onPointerDown={({ clientX }) => move(clientX)}
      onPointerUp={letGo}
      onPointerLeave={letGo}
      onDblClick={() => onUntil(horizon)}
    >
      <Axes {...scales} until={until} isSynthetic={isSynthetic} />
      {shown.map(({ place, ...curve }) => {
        const steps = stepsUntil(curve, until);
        return (
          <g key={curve.label}>
            <path class="band" d={bandOf(steps, scales)} fill={colours[place % 4]} />
            {pieces(steps).map(({ from, to, isFew }) => (
              <path
                key={from}
                class={isFew ? "curve few" : "curve"}
                d={lineOf(steps, { from, to, ...scales })}
                stroke={colours[place % 4]}
                stroke-dasharray={dashes[place % 4]}
              />
            ))}
          </g>
        );
      })}
      <line class="now" x1={xOf(day)} x2={xOf(day)} y1={yOf(1)} y2={yOf(0)} />
      <rect class="beyond" x={end} width={xOf(until) - end} y={yOf(1)} height={inner.height} />
      <path
        class="handle"
        d={`M${end},${yOf(1)}V${yOf(0)}M${end},${yOf(0.5) - 11}h6v22h-6z`}
        onPointerDown={(event) => {
          event.stopPropagation();
          setHeld(until);
        }}
      />
    </svg>
  );
}

type AxesProps = Scales & { readonly until: number; readonly isSynthetic: boolean };

function Axes({ xOf, yOf, until, isSynthetic }: AxesProps) {
  const step = until > 84 ? 4 : until > 42 ? 2 : 1;
  const weeks = Array.from({ length: Math.floor(until / 7 / step) + 1 }, (_, i) => i * step);
  return (
    <>
      {[0, 0.25, 0.5, 0.75, 1].map((share) => (
        <g key={share}>
          <line class="grid" x1={frame.left} x2={frame.width - frame.right} y1={yOf(share)} y2={yOf(share)} />
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
    </>
  );
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
            {curves.map((curve) => {
              const said = saidOn(curve, week * 7);
              const words = said === null ? null : shareWords(said);
              return (
                <td key={curve.label}>
                  {words === null ? "not known" : `${words.share}, ${words.followed} followed`}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
