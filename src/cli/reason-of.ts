/** The code of an error of the operating system; "" where it has none. */
export const codeOf = (error: unknown): string =>
  error instanceof Error && "code" in error ? String(error.code) : "";

const words: Readonly<Record<string, string>> = {
  ENOENT: "does not exist",
  EEXIST: "already exists",
  EACCES: "cannot be opened with your permissions",
  EPERM: "cannot be changed with your permissions",
  EISDIR: "is a folder, not a file",
  ENOTDIR: "is below something that is a file, not a folder",
  ENOTEMPTY: "contains files that were not there before",
  ENOSPC: "does not fit: the disk is full",
  EDQUOT: "does not fit: your quota of the disk is full",
  EFBIG: "is larger than this disk allows",
  EROFS: "is on a disk that cannot be written to",
  EIO: "cannot be reached: the disk reports an error",
  EPIPE: "is no longer being read by the other program",
  EBUSY: "is in use, or is where another disk is attached",
  EMFILE: "cannot be opened: too many files are open",
  ENAMETOOLONG: "has a name that is too long",
  ELOOP: "is a link that leads back to itself",
};

/** What the operating system said, as the end of a sentence. */
export const reasonOf = (error: unknown): string =>
  words[codeOf(error)] ??
  `could not be used (${codeOf(error) === "" ? "the system gives no reason" : `the system reports ${codeOf(error)}`})`;
