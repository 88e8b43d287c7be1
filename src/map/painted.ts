/** A tab that is not looked at paints nothing: it is not waited for longer than this. */
const LATEST_MS = 200

/** Resolves when what was changed until now has been painted, so that what is less urgent comes behind it. */
export function painted(): Promise<void> {
  return new Promise((resolve) => {
    const settle = () => {
      clearTimeout(late)
      resolve()
    }
    const late = setTimeout(settle, LATEST_MS)
    // A frame's callbacks come before its painting, a timer behind it.
    requestAnimationFrame(() => setTimeout(settle))
  })
}
