import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";

interface ConfirmProps {
  readonly title: string;
  readonly yes: string;
  readonly onYes: () => void;
  readonly onNo: () => void;
  readonly children?: ComponentChildren;
}

/** Asks before something is done that could be regretted; Escape and the first button leave everything as it is. */
export function Confirm({ title, yes, onYes, onNo, children }: ConfirmProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const before = document.activeElement as HTMLElement | null;
    dialog.current?.showModal();
    return () => before?.focus();
  }, []);
  return (
    <dialog
      ref={dialog}
      class="ask-first"
      aria-labelledby="ask-first-title"
      onCancel={(event) => {
        event.preventDefault();
        onNo();
      }}
    >
      <h2 id="ask-first-title">{title}</h2>
      {children}
      <p class="go-on">
        <button type="button" onClick={onNo}>
          Leave it as it is
        </button>
        <button type="button" class="main" onClick={onYes}>
          {yes}
        </button>
      </p>
    </dialog>
  );
}
