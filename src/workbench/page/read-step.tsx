import { useEffect, useRef } from "preact/hooks";
import { screenStyle } from "../../report/layout/style-screen.js";
import { cautionLine, syntheticLine } from "../../words/cautions.js";
import type { ReadView, SectionView } from "../engine/tasks.js";
import { Curves } from "./curves.js";
import { Worded } from "./term.js";

interface ReadProps {
  readonly answer: ReadView;
  /** The sections of the report; null until they were asked for. */
  readonly sections: readonly SectionView[] | null;
  readonly isBusy: boolean;
  readonly onWhole: () => void;
}

/** The answer: the curve to walk along, and the sections of the report, drawn when they are opened. */
export function ReadStep({ answer, sections, isBusy, onWhole }: ReadProps) {
  const told = new Set<string>();
  return (
    <>
      {answer.isSynthetic ? <p class="synthetic">{syntheticLine}</p> : null}
      <div class="plain">
        {answer.paragraphs.map((paragraph) => (
          <p key={paragraph}>
            <Worded text={paragraph} told={told} />
          </p>
        ))}
      </div>
      <p class="caution">{cautionLine}</p>
      <Curves families={answer.families} horizon={answer.horizonDays} isSynthetic={answer.isSynthetic} />
      <details
        class="whole"
        onToggle={({ currentTarget }) => {
          if (currentTarget.open && sections === null && !isBusy) onWhole();
        }}
      >
        <summary>The whole report</summary>
        {sections === null ? (
          <button type="button" disabled={isBusy} onClick={onWhole}>
            Draw the report
          </button>
        ) : (
          <Sections sections={sections} />
        )}
      </details>
    </>
  );
}

/** Sections of the report under its own style, apart from that of the page. */
function Sections({ sections }: { readonly sections: readonly SectionView[] }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const root = host.current!.shadowRoot ?? host.current!.attachShadow({ mode: "open" });
    const style = new CSSStyleSheet();
    style.replaceSync(screenStyle.replaceAll(/:root|\bbody\b/g, ":host"));
    root.adoptedStyleSheets = [style];
    // markup of the toolkit, in which every text from data is escaped
    root.innerHTML = `<div>${sections
      .map(
        ({ id, title, markup }) =>
          `<section id="${id}" aria-labelledby="${id}-heading"><h3 class="part" id="${id}-heading">${title}</h3>${markup}</section>`,
      )
      .join("")}</div>`;
    const follow = (event: Event) => {
      const link = (event.target as Element).closest("a[href^='#']");
      const target = link === null ? null : root.getElementById(link.getAttribute("href")!.slice(1));
      if (target === null) return;
      event.preventDefault();
      // a browser opens folded parts for links of its own only
      const folded = target.closest("details");
      if (folded !== null) folded.open = true;
      target.scrollIntoView();
    };
    root.addEventListener("click", follow);
    return () => root.removeEventListener("click", follow);
  }, [sections]);
  return <div class="paper" ref={host} />;
}
