/**
 * Called now and then in long work, as a large file being read or thousands of records being written, with how much of
 * how much is done (of no unit). It may take a breath, so that the desk stays answerable, and throws where the person has
 * stopped the work.
 */
export type Pace = (done: number, of: number) => Promise<void>

/** Works without a break. */
export const noPause: Pace = () => Promise.resolve()
