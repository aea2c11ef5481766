/** The linked tables of a cohort, in the order in which they are read. */
export const linkedTableNames = ["injuries", "treatments", "imaging", "visits", "sites"] as const;

/** Every table that a file can be. */
export const tableNames = [...linkedTableNames, "single_sheet"] as const;

export type LinkedTableName = (typeof linkedTableNames)[number];
export const isLinkedTable = (table: TableName): table is LinkedTableName => table !== "single_sheet";
export type TableName = (typeof tableNames)[number];
