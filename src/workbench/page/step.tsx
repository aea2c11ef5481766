import type { ComponentChildren } from "preact";

/** The steps of the path, in order. */
export const steps = [
  { id: "bring", title: "Bring data" },
  { id: "columns", title: "Agree on columns" },
  { id: "queries", title: "Settle queries" },
  { id: "ask", title: "Ask" },
  { id: "read", title: "Read" },
  { id: "take-away", title: "Take away" },
] as const;
export type StepId = (typeof steps)[number]["id"];

/** How far a step is. */
export type StepState = "ahead" | "open" | "done";

/** One step under its title. A step that lies ahead says what is needed first. */
export function Step({
  id,
  state,
  children,
}: {
  readonly id: StepId;
  readonly state: StepState;
  readonly children?: ComponentChildren;
}) {
  const number = steps.findIndex((step) => step.id === id) + 1;
  return (
    <section class={`step ${state}`} id={id} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`} tabIndex={-1}>
        <span class="knot" aria-hidden="true">
          {number}
        </span>
        {steps[number - 1]!.title}
        {state === "ahead" ? <span class="ahead-mark"> (not yet)</span> : null}
      </h2>
      {state === "ahead" ? null : <div class="step-body">{children}</div>}
    </section>
  );
}

/** Moves the reader to a step that has opened. */
export function goTo(id: StepId): void {
  requestAnimationFrame(() => {
    const title = document.getElementById(`${id}-title`);
    title?.focus({ preventScroll: true });
    const isCalm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    title?.scrollIntoView({ behavior: isCalm ? "auto" : "smooth", block: "start" });
  });
}
