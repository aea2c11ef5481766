import type { Trouble } from "./use-path.js";

/** What did not work, and whether something that was brought is the cause. */
export const TroubleWords = ({ isInput, message }: Pick<Trouble, "isInput" | "message">) => (
  <div class="trouble" role="alert">
    <strong>
      {isInput
        ? "This cannot be used as it is."
        : "The toolkit itself has failed; your data are not the cause."}
    </strong>
    <pre>{message}</pre>
  </div>
);
