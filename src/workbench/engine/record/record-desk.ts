import { plainStudyText } from "../../../run/plain-study.js";
import { studyName } from "../study-draft.js";
import { draftFindings } from "./findings.js";
import { recordForms } from "./forms.js";
import { openRecord } from "./open-record.js";
import { fileName, planOfRecord, recordFile } from "./record-file.js";
import type { RecordTasks } from "./record-tasks.js";
import { recordView } from "./view.js";

/** The tasks about a record. The page holds the record, and gives it with each of them: nothing of it stays here. */
export const recordTasks: RecordTasks = {
  recordForms: () => Promise.resolve(recordForms()),
  recordView: (record) => Promise.resolve(recordView(record)),
  recordCheck: ({ record, draft }) => Promise.resolve(draftFindings(record, draft)),
  recordFile: async ({ record, name }) => ({ name: fileName(name), bytes: await recordFile(record) }),
  recordOpen: openRecord,
  recordStudy: async ({ record, name }) => {
    const file = fileName(name);
    const study = plainStudyText(planOfRecord(record, file));
    return [
      { name: studyName, bytes: new TextEncoder().encode(study) },
      { name: file, bytes: await recordFile(record) },
    ];
  },
};
