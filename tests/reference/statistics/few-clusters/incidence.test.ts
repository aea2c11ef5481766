import { describe, expect, it } from "vitest";
import { cumulativeIncidence } from "../../../../src/statistics/index.js";
import { type Expected, expectAllClose } from "../reference-data.js";
import { casesOf, finger } from "./few-clusters.js";

const columns = { times: finger("time"), causes: finger("cause") };

describe("cumulative incidence, variance summed within persons, against R package survival 3.5.3", () => {
  it.each(casesOf("incidences"))("$id", (wanted: Expected) => {
    const late = wanted.id.includes("late entry") ? { entries: finger("entry") } : {};
    const clusters = wanted.id.includes("persons") ? { clusters: finger("person") } : {};
    const found = cumulativeIncidence({ ...columns, ...late, ...clusters }, { variance: "robust" });
    expect(found.times).toEqual(wanted.time);
    for (const cause of [1, 2]) {
      const own = found.causes.find((one) => one.cause === cause)!;
      expectAllClose(own.incidence, wanted[`incidence_${cause}`], { rel: 1e-9, what: `incidence ${cause}` });
      expectAllClose(own.standardError, wanted[`se_${cause}`], { rel: 1e-9, what: `error ${cause}` });
    }
  });
});
