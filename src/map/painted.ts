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
    requestAnimationFrame(() => {
      // A frame's callbacks come before its painting, a message behind it.
      const { port1, port2 } = new MessageChannel()
      port1.onmessage = settle
      port2.postMessage(null)
    })
  })
}
