/** The code of an error of the operating system; "" where it has none. */
export const codeOf = (error: unknown): string =>
  error instanceof Error && "code" in error ? String(error.code) : "";

const words: Readonly<Record<string, string>> = {
  ENOENT: "does not exist",
  EEXIST: "exists already",
  EACCES: "may not be opened with your permissions",
  EPERM: "may not be changed with your permissions",
  EISDIR: "is a folder, not a file",
  ENOTDIR: "lies below something that is a file, not a folder",
  ENOTEMPTY: "holds files that were not there before",
  ENOSPC: "does not fit: the disk is full",
  EDQUOT: "does not fit: your share of the disk is full",
  EFBIG: "is larger than this disk takes",
  EROFS: "lies on a disk that cannot be written to",
  EIO: "cannot be reached: the disk reports a fault",
  EPIPE: "has nobody left to read it",
  EBUSY: "is in use, or is the place where another disk begins",
  EMFILE: "cannot be opened: too many files are open",
  ENAMETOOLONG: "has a name that is too long",
  ELOOP: "is reached by links that lead to one another",
};

/** What the operating system said, as the end of a sentence. */
export const reasonOf = (error: unknown): string =>
  words[codeOf(error)] ?? `could not be used (the system says ${codeOf(error) || "nothing more"})`;
