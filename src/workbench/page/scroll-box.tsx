import type { ComponentChildren } from "preact";

/** A box that scrolls sideways where its table is wider than the page; keys reach it, so that they can scroll it. */
export const ScrollBox = ({
  name,
  children,
}: {
  readonly name: string;
  readonly children: ComponentChildren;
}) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys (WCAG 2.1.1)
  <section class="table-box" tabIndex={0} aria-label={name}>
    {children}
  </section>
);
