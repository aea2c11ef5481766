/** Whether keys can be given to an element now. */
const takesKeys = (element: Element | null | undefined): element is HTMLElement =>
  element instanceof HTMLElement && element.isConnected && !element.matches(":disabled");

/** What has been settled goes, and whoever settled it goes on with the next. */
const nextOf = (held: Element): readonly Element[] => {
  const entry = held.closest("article, li, tr");
  return [entry?.nextElementSibling, entry?.previousElementSibling].filter((one) =>
    one?.matches("article, li, tr"),
  ) as Element[];
};

/**
 * Remembers where the keyboard is. While a task runs, controls are off, and a control that is off loses the keyboard: whoever works without
 * a mouse would begin again at the top of the page after every choice.
 *
 * @returns gives the keyboard back once the page has been drawn: to the same control, to the next entry of its list, or to the title of its step
 */
export function keepFocus(): () => void {
  const held = document.activeElement;
  if (held === null || held === document.body) return () => undefined;
  const neighbours = nextOf(held);
  const step = held.closest("section.step, section.pool");
  return () => {
    requestAnimationFrame(() => {
      if (document.activeElement !== document.body) return;
      const first = neighbours
        .flatMap((entry) => [...entry.querySelectorAll("button, select, input")])
        .find(takesKeys);
      const to = takesKeys(held) ? held : (first ?? step?.querySelector<HTMLElement>("h2"));
      to?.focus({ preventScroll: takesKeys(held) });
    });
  };
}
