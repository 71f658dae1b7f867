/** One of several parts that one job makes, each a little different: the four feet of a case, a left and a right. */
export interface Member {
  /** Lower case letters, digits and hyphens; names its file. Empty when the job makes one part. */
  readonly id: string;
  /** In the words of a bench: "front left". */
  readonly name: string;
  /** Choices that make it this one; they need not be among those a job can make. */
  readonly choices: Readonly<Record<string, string>>;
}

/** What a family without members makes. */
export const alone: Member = { id: '', name: '', choices: {} };
