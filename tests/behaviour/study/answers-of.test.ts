import { expect, it } from "vitest";
import { answersOf } from "../../../src/study/answers-of.js";

it("each count of the answers stands under its own name: no two are the same here", () => {
  const used = { stands: 3, change: 4, "leave-out": 5 };
  const notUsed = { stale: 1, contradictory: 2, unreadable: 10 };
  const account = { file: "a.csv", read: 40, blank: 6, used, repeated: 7, notUsed, cellsChanged: 8 };
  expect(answersOf({ ...account, rowsLeftOut: 9 })).toEqual({
    file: "a.csv",
    read: 40,
    blank: 6,
    used,
    repeated: 7,
    not_used: notUsed,
    cells_changed: 8,
    rows_left_out: 9,
  });
});
