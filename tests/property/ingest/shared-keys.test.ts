import fc from "fast-check";
import { expect, it } from "vitest";
import { byKey } from "../../../src/ingest/rules/link-rule.js";
import { groupsSharingKey } from "../../../src/ingest/rules/shared-keys.js";

/** Keys whose short hashes are alike: "Aa" and "BB" are so under every polynomial of base 31. */
const key = fc.oneof(fc.stringMatching(/^(Aa|BB){0,3}$/), fc.stringMatching(/^P0?[0-9]$/), fc.string());

it("rows that share a key are those of all groups with two rows or more, in the same order", () => {
  fc.assert(
    fc.property(fc.array(key, { maxLength: 200 }), (keys) => {
      const rows = keys.map((name, row) => ({ name, row }));
      const all = [...byKey(rows, ({ name }) => name).values()];
      expect(groupsSharingKey(rows, ({ name }) => name)).toEqual(all.filter(({ length }) => length > 1));
    }),
    { seed: 20_261_128, numRuns: 300 },
  );
});
