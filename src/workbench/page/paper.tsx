import { useEffect, useRef } from "preact/hooks";
import { screenStyle } from "../../report/layout/style-screen.js";
import type { SectionView } from "../engine/tasks.js";

/** Sections of a report under its own style, apart from that of the page. */
export function Paper({ sections }: { readonly sections: readonly SectionView[] }) {
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
