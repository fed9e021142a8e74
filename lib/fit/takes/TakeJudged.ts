/** What is kept of a take that was held against the part, as plain JSON. */
export interface TakeJudged {
  /** Every stroke of the part was found, in time, and no other note stood in its place. */
  isClean: boolean;
}
