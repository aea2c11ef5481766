import { expect, it } from "vitest";
import { scanText } from "../../../src/schema/identifying/scan-text.js";

// invented names
it.each(["Dr. Berg", "Dr. Anna Berg", "Dr. Anna Maria Berg", "Dr. Anna Maria Theresa Berg"])(
  "a name after a title is found whole, with all its parts: %s",
  (name) => {
    const places = scanText(`seen by ${name} yesterday`);
    expect(
      places.map(({ from, length }) => `seen by ${name} yesterday`.slice(from - 1, from - 1 + length)),
    ).toEqual([name]);
  },
);
