/**
 * One run at a time: what is asked while one is under way waits, and only the newest of it is run. Used where a drag
 * asks faster than answers come, so that the last day asked for is always the one shown in the end.
 */
export function latest<A>(run: (asked: A) => Promise<void>): (asked: A) => Promise<void> {
  let waiting: { asked: A } | null = null
  let running: Promise<void> | null = null
  const work = async () => {
    while (waiting) {
      const { asked } = waiting
      waiting = null
      await run(asked)
    }
  }
  return (asked) => {
    waiting = { asked }
    running ??= work().finally(() => {
      running = null
    })
    return running
  }
}
