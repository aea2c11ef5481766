/** The sections of a report by id, in the order of the page: contents list, headings and cross-references take their titles from here. */
export const sectionTitles = {
  answer: "In plain words",
  care: "Warnings about these results",
  sites: "What the sites mean, record and see",
  counted: "Injuries included, and rows set aside",
  trial: "The target trial",
  cohort: "Characteristics of the groups",
  "follow-up": "Follow-up",
  missing: "Missing values and loss to follow-up",
  curves: "Return to climbing over time",
  after: "After the return",
  effects: "Differences between the groups",
  "by-site": "Each site by itself, and the sites together",
  distances: "Tendon-phalanx distances",
  estimands: "What each figure is a figure of",
  queries: "Data queries",
  methods: "Statistical methods",
  cautions: "Limits of this report",
  checklist: "Reporting checklist",
  provenance: "How this report was made",
} as const;

export type SectionId = keyof typeof sectionTitles;

/** How a sentence refers to a section. */
export const sectionName = (id: SectionId): string => `\u201c${sectionTitles[id]}\u201d`;
