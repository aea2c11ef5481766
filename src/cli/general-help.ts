import { exitCodesInWords } from "./exit-codes.js";

const caution = `General information about groups of past patients: not a diagnosis, not treatment advice, not a forecast
for one finger. A licensed clinician decides; local codes, ethics approval and data-protection rules prevail.
Nothing leaves this computer: the tools open no connection.`;

/** What stands beneath the list of commands. */
export const generalHelp = `
A first audit:
  pulley-outcomes begin my-audit               a study file, an empty sheet and an explanation of its columns
  pulley-outcomes check my-audit/study.yaml    which rows can be used, and what to correct
  pulley-outcomes report my-audit/study.yaml   the report: open my-audit/report/report.html
Help on one command: pulley-outcomes report --help

Study files, mappings and scenarios may have at most 1 MB, tables and workbooks at most 300 MB, and a table of a study at
most 250,000 rows; a larger CSV file can be checked row by row (check FILE --table NAME). Only files on a disk are read: no
devices, pipes or sockets.

${exitCodesInWords}

${caution}`;
