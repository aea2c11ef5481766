import type { HazardColumns, Ties, TimeToEvent } from "../../../../src/statistics/index.js";
import { codes, numbers, type Row, referenceRows } from "../reference-data.js";

const table = (file: string): Row[] => referenceRows("cox", file);
export const hand = table("hand_worked_1.csv");
const freireich = table("freireich.csv");
export const ovarian = table("ovarian.csv");
const lung = table("lung.csv");
const larynx = table("larynx.csv");
const veteran = table("veteran.csv");
const heart = table("heart_transplant.csv");
const bladder = table("bladder_recurrences.csv");
const kidney = table("kidney_catheter.csv");
const aml = table("aml_weights.csv");

export const timeStatus = (rows: readonly Row[]): TimeToEvent => ({
  times: numbers(rows, "time"),
  events: numbers(rows, "status"),
});
const startStop = (rows: readonly Row[]): TimeToEvent => ({
  times: numbers(rows, "stop"),
  events: numbers(rows, "event"),
  entries: numbers(rows, "start"),
});
export const named = (columns: Record<string, ArrayLike<number>>): HazardColumns["covariates"] => ({
  names: Object.keys(columns),
  columns: Object.values(columns),
});
export const from = (rows: readonly Row[], ...names: string[]): HazardColumns["covariates"] =>
  named(Object.fromEntries(names.map((name) => [name, numbers(rows, name)])));
export const indicator = (rows: readonly Row[], name: string, word: string): number[] =>
  rows.map((row) => (row[name] === word ? 1 : 0));

const stages = named({
  s2: indicator(larynx, "stage", "2"),
  s3: indicator(larynx, "stage", "3"),
  s4: indicator(larynx, "stage", "4"),
  age: numbers(larynx, "age"),
});
export const larynxColumns: HazardColumns = {
  times: numbers(larynx, "time"),
  events: numbers(larynx, "death"),
  covariates: stages,
};
const remission: HazardColumns = {
  times: numbers(freireich, "weeks"),
  events: numbers(freireich, "relapse"),
  covariates: named({ mp: indicator(freireich, "group", "6-MP") }),
};
export const lungEcog = lung.filter((row) => row.ecog !== "");
const lungInst = lung.filter((row) => row.inst !== "");
export const veteranColumns: HazardColumns = {
  ...timeStatus(veteran),
  covariates: named({
    trt: numbers(veteran, "trt"),
    small: indicator(veteran, "celltype", "smallcell"),
    adeno: indicator(veteran, "celltype", "adeno"),
    large: indicator(veteran, "celltype", "large"),
    karno: numbers(veteran, "karno"),
    diagtime: numbers(veteran, "diagtime"),
    age: numbers(veteran, "age"),
    prior: numbers(veteran, "prior"),
  }),
};
const times = (a: readonly number[], b: readonly number[]): number[] => a.map((value, at) => value * b[at]!);
const transplant = numbers(heart, "transplant");
const heartTerms = {
  age: numbers(heart, "age"),
  surgery: numbers(heart, "surgery"),
  transplant,
  year: numbers(heart, "year"),
  age_tx: times(numbers(heart, "age"), transplant),
  surg_tx: times(numbers(heart, "surgery"), transplant),
  year_tx: times(numbers(heart, "year"), transplant),
};
const heartColumns = (...names: (keyof typeof heartTerms)[]): HazardColumns => ({
  ...startStop(heart),
  covariates: named(Object.fromEntries(names.map((name) => [name, heartTerms[name]]))),
});
export const heartModel1 = heartColumns("age", "surgery", "transplant", "age_tx", "surg_tx");
const treated = named({ g: indicator(aml, "group", "Nonmaintain") });
const repeated = aml.flatMap((row) => Array.from({ length: Number(row.weight_int) }, () => row));
const repeatedColumns: HazardColumns = {
  ...timeStatus(repeated),
  covariates: named({ g: indicator(repeated, "group", "Nonmaintain") }),
};
const whole: HazardColumns = { ...timeStatus(aml), weights: numbers(aml, "weight_int"), covariates: treated };
const fractional: HazardColumns = {
  ...timeStatus(aml),
  weights: numbers(aml, "weight_dec"),
  clusters: aml.map((_, row) => row),
  covariates: treated,
};

export const hazardCases: {
  source: string;
  id: string;
  part?: string;
  ties?: Ties;
  columns: HazardColumns;
}[] = [
  ...(["breslow", "efron"] as const).flatMap((ties) => [
    {
      source: `six subjects worked by hand, Therneau & Grambsch 2000, Appendix E, ${ties}`,
      id: "hand_worked_1",
      part: ties,
      ties,
      columns: { ...timeStatus(hand), covariates: from(hand, "x") },
    },
    {
      source: `remission trial, Freireich et al. 1963, Blood 21:699, ${ties}`,
      id: "freireich_ties",
      part: ties,
      ties,
      columns: remission,
    },
    {
      source: `larynx cancer, Kardaun 1983, Stat Neerl 37:103, ${ties}`,
      id: "larynx_stage_age",
      part: ties,
      ties,
      columns: larynxColumns,
    },
    {
      source: `acute myelogenous leukaemia, Miller 1997, whole weights, ${ties}`,
      id: "aml_weights",
      part: `integer_weights_${ties}`,
      ties,
      columns: whole,
    },
    {
      source: `the same, rows repeated, ${ties}`,
      id: "aml_weights",
      part: `rows_repeated_${ties}`,
      ties,
      columns: repeatedColumns,
    },
    {
      source: `the same, fractional weights, robust, ${ties}`,
      id: "aml_weights",
      part: `fractional_weights_${ties}_robust`,
      ties,
      columns: fractional,
    },
  ]),
  {
    source: "ovarian cancer, Edmunson et al. 1979, Cancer Treat Rep 63:241, age and status",
    id: "ovarian_age_ecog",
    columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age", "ecog_ps") },
  },
  {
    source: "the same, four covariates",
    id: "ovarian_four_covariates",
    columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age", "resid_ds", "rx", "ecog_ps") },
  },
  {
    source: "the same, stratified by treatment",
    id: "ovarian_stratified_rx",
    columns: {
      ...timeStatus(ovarian),
      strata: numbers(ovarian, "rx"),
      covariates: from(ovarian, "age", "ecog_ps"),
    },
  },
  {
    source: "the same, age alone",
    id: "ovarian_age",
    columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age") },
  },
  {
    source: "advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601",
    id: "lung_age_sex_ecog",
    columns: { ...timeStatus(lungEcog), covariates: from(lungEcog, "age", "sex", "ecog") },
  },
  {
    source: "the same within 18 institutions",
    id: "lung_strata_inst",
    columns: {
      ...timeStatus(lungInst),
      strata: numbers(lungInst, "inst"),
      covariates: from(lungInst, "age", "sex"),
    },
  },
  {
    source: "veterans' lung cancer, Kalbfleisch & Prentice 1980",
    id: "veteran_full",
    columns: veteranColumns,
  },
  {
    source: "the same within cell type, Breslow",
    id: "veteran_stratified",
    ties: "breslow",
    columns: {
      ...timeStatus(veteran),
      strata: codes(veteran, "celltype", ["adeno", "large", "smallcell", "squamous"]),
      covariates: from(veteran, "trt", "karno", "age"),
    },
  },
  {
    source: "heart transplants, Crowley & Hu 1977, J Am Stat Assoc 72:27, model 1, start-stop rows",
    id: "heart_transplant",
    part: "m1",
    ties: "breslow",
    columns: heartModel1,
  },
  {
    source: "the same, model 2",
    id: "heart_transplant",
    part: "m2",
    ties: "breslow",
    columns: heartColumns("year", "transplant", "year_tx"),
  },
  {
    source: "the same, model 6",
    id: "heart_transplant",
    part: "m6",
    ties: "breslow",
    columns: heartColumns("age", "transplant", "surgery", "year", "age_tx"),
  },
  {
    source: "the same, robust by subject",
    id: "heart_transplant",
    part: "m1_efron_robust",
    columns: { ...heartColumns("age", "surgery", "transplant"), clusters: numbers(heart, "id") },
  },
  {
    source: "bladder recurrences, Wei, Lin & Weissfeld 1989, J Am Stat Assoc 84:1065, robust by subject",
    id: "bladder_counting_process",
    columns: {
      ...startStop(bladder),
      clusters: numbers(bladder, "id"),
      covariates: from(bladder, "rx", "number", "size"),
    },
  },
  {
    source: "the same, stratified by number of the recurrence",
    id: "bladder_conditional_strata",
    columns: {
      ...startStop(bladder),
      clusters: numbers(bladder, "id"),
      strata: numbers(bladder, "enum"),
      covariates: from(bladder, "rx", "number", "size"),
    },
  },
  {
    source: "kidney catheters, McGilchrist & Aisbett 1991, Biometrics 47:461, two rows a subject",
    id: "kidney_pairs",
    columns: {
      ...timeStatus(kidney),
      clusters: numbers(kidney, "id"),
      covariates: from(kidney, "age", "sex"),
    },
  },
  {
    source: "remission trial, Freireich et al. 1963, Blood 21:699, exact ties",
    id: "freireich_ties",
    part: "exact",
    ties: "exact",
    columns: remission,
  },
];
