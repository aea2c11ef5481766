import { expect, it } from "vitest";
import { deriveCohort, toColumns } from "../../../src/cohort/index.js";
import { linkedOf, questionOf } from "./history.js";

it("columns of four records by hand: back on day 91, gave up on day 164, censored on day 259, back on day 88", () => {
  const first_visit_date = "2024-03-08";
  const linked = [
    { person_id: "P1", full_climbing_date: "2024-06-03" },
    { person_id: "P2", gave_up_date: "2024-08-15" },
    { person_id: "P1", site_id: "site-b" },
    { person_id: "P1", full_climbing_date: "2024-05-31" },
  ].map((injury, index) => linkedOf({ injury: { ...injury, injury_id: `i${index}`, first_visit_date } }));
  const { records } = deriveCohort(linked, questionOf({ entry: "first_visit" }));
  expect(toColumns(records)).toEqual({
    times: Float64Array.of(91, 164, 259, 88),
    events: Uint8Array.of(1, 0, 0, 1),
    causes: Uint8Array.of(1, 2, 0, 1),
    entries: Float64Array.of(4, 4, 4, 4),
    persons: Int32Array.of(0, 1, 2, 0),
  });
});

it("columns of no records are empty", () => {
  expect(toColumns([]).times).toHaveLength(0);
});
