/** One file of the report's folder; the path has forward slashes and starts at the folder. */
export interface ReportFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}
