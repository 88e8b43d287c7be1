/** Keeps the screen on until the function returned is called, where the browser can; it lets go when the page is hidden, and is asked again when it is back. */
export function keepAwake(told: (on: boolean) => void): () => void {
  let held: WakeLockSentinel | null = null
  let over = false
  const ask = async () => {
    if (over || document.visibilityState !== 'visible') return
    try {
      held = (await navigator.wakeLock?.request('screen')) ?? null
    } catch {
      // Refused, as with a battery that runs low: the person is told that the screen may go dark.
      held = null
    }
    if (over) void held?.release()
    else told(held !== null)
  }
  document.addEventListener('visibilitychange', ask)
  void ask()
  return () => {
    over = true
    document.removeEventListener('visibilitychange', ask)
    void held?.release()
  }
}
