/** One variable of the time-to-event dataset, as its definition is given with the data. */
export interface VariableDefinition {
  /** At most 8 characters. */
  readonly name: string;
  /** At most 40 characters. */
  readonly label: string;
  readonly type: "Char" | "Num";
  /** Words or codes that it may hold, as `0 = event`; empty where any. */
  readonly codelist: string;
  /** Where it comes from. */
  readonly derivation: string;
  /** How it is written in the CSV, where that needs saying. */
  readonly format: string;
}

/** Codes of the censoring variable: 0 is the event, every other code a reason why it was not seen. */
export const censorCodes = {
  milestone: 0,
  censored: 1,
  gave_up: 2,
  new_rupture: 3,
  surgery: 4,
  died: 5,
} as const;

const day = "date, YYYY-MM-DD";
const text = (name: string, label: string, derivation: string, codelist = ""): VariableDefinition => ({
  name,
  label,
  type: "Char",
  codelist,
  derivation,
  format: "",
});
const number = (
  name: string,
  label: string,
  derivation: string,
  { codelist = "", format = "" }: { codelist?: string; format?: string } = {},
): VariableDefinition => ({ name, label, type: "Num", codelist, derivation, format });

/**
 * The variables of the dataset in their order. Names and labels of those that the standard knows are its own; INJID,
 * INJGR, AVALLO, AVALHI and ENTRYDY are ours, since one subject may have several injuries and since a return may be known
 * to lie between two days only.
 *
 * @source CDISC, The ADaM Basic Data Structure for Time-to-Event Analyses, version 1.0, 2012; ADaM Implementation Guide 1.0
 */
export const adtteVariables = [
  text("STUDYID", "Study Identifier", "short name of the study"),
  text(
    "USUBJID",
    "Unique Subject Identifier",
    "STUDYID, a hyphen, and the person's name in this deposit; unique across sites",
  ),
  text("SITEID", "Study Site Identifier", "site of the injury; blank if none was recorded"),
  text("INJID", "Injury Identifier", "injury_id; part of the key, since a subject may have several injuries"),
  number("ASEQ", "Analysis Sequence Number", "number of the record within the subject"),
  text(
    "TRTP",
    "Planned Treatment",
    "same as TRTA: nothing was planned or allocated by the study, treatments were observed",
  ),
  text(
    "TRTA",
    "Actual Treatment",
    "the first treatment of interest after the injury; none if there was none by the end",
  ),
  number("AGE", "Age", "age_at_injury, in bands if the deposit is a shareable copy"),
  text("AGEU", "Age Units", "YEARS if AGE is given", "YEARS"),
  text("SEX", "Sex", "F for female, M for male, U for anything else; blank if not recorded", "F; M; U"),
  text(
    "INJGR",
    "Injury Grade",
    "grade of the injury (common practice, no source)",
    "1; 2; 3; 4a; 4b; 4_undivided; unknown",
  ),
  text("PARAMCD", "Parameter Code", "which return is timed", "EASYCLMB; FULLCLMB; PREVLVL"),
  text("PARAM", "Parameter", "PARAMCD in words, with the unit of AVAL"),
  number("PARAMN", "Parameter (N)", "1, 2, 3 in the order in which the returns are expected", {
    codelist: "1; 2; 3",
  }),
  number(
    "AVAL",
    "Analysis Value",
    "ADT minus STARTDT in days; nothing is added, so that day 0 is the origin itself",
  ),
  number(
    "AVALLO",
    "Last Day Known Before the Event",
    "days from STARTDT; -1 if no day before the event is known",
  ),
  number(
    "AVALHI",
    "First Day Known at or After the Event",
    "days from STARTDT; blank if the event was not observed",
  ),
  number("ENTRYDY", "Day After Which at Risk", "days from STARTDT; -1 if at risk from the origin"),
  number("STARTDT", "Time-to-Event Origin Date for Subject", "day 0 under the clock of the study", {
    format: day,
  }),
  text("STARTDTF", "Origin Date Imputation Flag", "D if the origin is known only to the week or month", "D"),
  number("ADT", "Analysis Date", "day of the event, or of the censoring", { format: day }),
  text(
    "ADTF",
    "Analysis Date Imputation Flag",
    "D if a day represents a week, a month or an interval between contacts",
    "D",
  ),
  number("CNSR", "Censor", "0 for the event; otherwise how the record ended", {
    codelist:
      "0 = event; 1 = last contact or close of data; 2 = gave up climbing; 3 = new rupture; 4 = surgery; 5 = died",
  }),
  text("EVNTDESC", "Event or Censoring Description", "CNSR in words, with how exactly the event is known"),
  text("CNSDTDSC", "Censor Date Description", "what ADT is if CNSR is not 0; blank for the event"),
] as const satisfies readonly VariableDefinition[];

/** Names of the variables, in their order. */
export type AdtteName = (typeof adtteVariables)[number]["name"];
