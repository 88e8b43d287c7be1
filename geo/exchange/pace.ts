/**
 * Called now and then while a large file is read or written, with how much of how much is done (of no unit). It may take
 * a breath, so that the desk stays answerable, and throws where the person has stopped the work.
 */
export type Pace = (done: number, of: number) => Promise<void>

/** Reads and writes without a break. */
export const noPause: Pace = () => Promise.resolve()
