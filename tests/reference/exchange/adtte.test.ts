import { describe, expect, it } from "vitest";
import { linkTables } from "../../../src/cohort/index.js";
import { adtteDefinitions, adtteOf, adtteText, adtteVariables } from "../../../src/exchange/index.js";
import { daysBetween } from "../../../src/schema/index.js";
import { answer } from "../../../src/study/index.js";
import { questionOf } from "../../../src/study/question-of.js";
import { committed, readCopy } from "../../behaviour/privacy/cohorts.js";
import { depositOf, rowsOfText } from "./deposits.js";

const { plan, read, copy, adtte } = depositOf("three-sites");
const rows = rowsOfText(adtteText(adtte));
const definitions = rowsOfText(adtteDefinitions(adtte));

describe("variables: ADaM Implementation Guide 1.0, section 3.1 (naming), and its limits of transport files", () => {
  it("names: at most 8 characters, letters, digits, underscores, the first a letter; each once", () => {
    for (const { name } of adtteVariables) expect(name).toMatch(/^[A-Z][A-Z0-9_]{0,7}$/);
    expect(new Set(adtteVariables.map(({ name }) => name)).size).toBe(adtteVariables.length);
  });
  it("labels: at most 40 characters; values of text: at most 200; plain letters throughout", () => {
    for (const { label } of adtteVariables) expect(label.length, label).toBeLessThanOrEqual(40);
    for (const row of rows) for (const value of Object.values(row)) expect(value).toMatch(/^[ -~]{0,200}$/);
  });
  it("labels of the variables that the standard knows are its own", () => {
    const labels = Object.fromEntries(definitions.map(({ name = "", label = "" }) => [name, label]));
    // ADaM Implementation Guide 1.0, tables 3.1.1 to 3.3; ADaM BDS for Time-to-Event Analyses 1.0, section 4
    expect(labels).toMatchObject({
      STUDYID: "Study Identifier",
      USUBJID: "Unique Subject Identifier",
      SITEID: "Study Site Identifier",
      TRTP: "Planned Treatment",
      TRTA: "Actual Treatment",
      PARAM: "Parameter",
      PARAMCD: "Parameter Code",
      AVAL: "Analysis Value",
      ADT: "Analysis Date",
      STARTDT: "Time-to-Event Origin Date for Subject",
      CNSR: "Censor",
      EVNTDESC: "Event or Censoring Description",
      CNSDTDSC: "Censor Date Description",
    });
  });
  it("every column is defined, in the order of the dataset, with a type, a length that holds its values, a derivation", () => {
    expect(definitions.map(({ name }) => name)).toEqual(Object.keys(rows[0]!));
    for (const { name = "", type, length, derivation } of definitions) {
      expect(["Char", "Num"]).toContain(type);
      expect(derivation).not.toBe("");
      if (type === "Char")
        for (const row of rows) expect(row[name]!.length).toBeLessThanOrEqual(Number(length));
    }
  });
});

describe("records: The ADaM Basic Data Structure for Time-to-Event Analyses 1.0", () => {
  it("PARAMCD is at most 8 characters and stands one to one with PARAM", () => {
    const pairs = new Map(rows.map(({ PARAMCD = "", PARAM = "" }) => [PARAMCD, PARAM]));
    expect(new Set(pairs.values()).size).toBe(pairs.size);
    for (const code of pairs.keys()) expect(code).toMatch(/^[A-Z][A-Z0-9]{0,7}$/);
    for (const { PARAMCD = "", PARAM } of rows) expect(PARAM).toBe(pairs.get(PARAMCD));
  });
  it("CNSR is 0 for an event and a positive whole number otherwise, each with its description", () => {
    const words = new Map<string, Set<string>>();
    for (const { CNSR = "", EVNTDESC = "", CNSDTDSC } of rows) {
      expect(CNSR).toMatch(/^(0|[1-9]\d*)$/);
      expect(EVNTDESC).not.toBe("");
      expect(CNSDTDSC === "").toBe(CNSR === "0");
      if (CNSR !== "0") words.set(CNSR, (words.get(CNSR) ?? new Set()).add(EVNTDESC));
    }
    for (const descriptions of words.values()) expect(descriptions.size).toBe(1);
  });
  it("AVAL = ADT - STARTDT in days (our convention: nothing is added), never negative", () => {
    for (const { AVAL = "", ADT = "", STARTDT = "" } of rows) {
      expect(Number(AVAL)).toBe(daysBetween(STARTDT, ADT));
      expect(Number(AVAL)).toBeGreaterThanOrEqual(0);
    }
  });
  it("imputation flags are blank or a code of the list DATEFL (D, M, Y)", () => {
    for (const { ADTF, STARTDTF } of rows)
      for (const flag of [ADTF, STARTDTF]) expect(flag).toMatch(/^[DMY]?$/);
    expect(rows.some(({ ADTF }) => ADTF === "D")).toBe(true);
    // the date of a censored record is a day of follow-up as it stands: nothing of it is imputed
    expect(rows.filter(({ CNSR, ADTF }) => CNSR !== "0" && ADTF !== "")).toEqual([]);
  });
  it("one record by USUBJID, INJID and PARAMCD; ASEQ numbers the records of a subject", () => {
    const keys = rows.map(({ USUBJID, INJID, PARAMCD }) => `${USUBJID}\n${INJID}\n${PARAMCD}`);
    expect(new Set(keys).size).toBe(rows.length);
    expect(new Set(rows.map(({ USUBJID, ASEQ }) => `${USUBJID}\n${ASEQ}`)).size).toBe(rows.length);
  });
});

describe("rows are accounted for", () => {
  it("injuries = records + left out, for each parameter", () => {
    for (const { injuries, records, left_out } of adtte.account) {
      expect(injuries).toBe(records + left_out);
      expect(injuries).toBe(read.tables.injuries.length);
    }
    expect(rows.length).toBe(adtte.account.reduce((sum, { records }) => sum + records, 0));
  });
  it("what gives no record is named with its reason", () => {
    const clocked = committed("one-clinic");
    const question = { ...questionOf(clocked.plan), clock: "treatment_start" as const };
    const result = adtteOf(linkTables(clocked.read.tables), { question, study: "invented" });
    expect(result.leftOut.length).toBeGreaterThan(0);
    expect(result.leftOut.length).toBe(result.account.reduce((sum, each) => sum + each.left_out, 0));
    expect(new Set(result.leftOut.map(({ reason }) => reason))).toContain("no-treatment-to-start-the-clock");
  });
  it("events and records are those of the report on the same tables", () => {
    const { closed_on: _, ...data } = plan.data;
    const everybody = answer(readCopy(copy, plan), { ...plan, data }).curves.find(
      ({ family }) => family === "all",
    )!.curves[0]!;
    const full = rows.filter(({ PARAMCD }) => PARAMCD === "FULLCLMB");
    expect(full.length).toBe(everybody.n);
    expect(full.filter(({ CNSR }) => CNSR === "0").length).toBe(everybody.events);
  });
});
